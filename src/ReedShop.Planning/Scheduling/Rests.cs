using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Rows of costs by day, sixteen days at a time: the least that a row holds within the nights a rest may take before
/// each day. A rest never crosses a night without room on the rack.
/// </summary>
internal static class Rests
{
    private const int Lanes = RackNights.Lanes;

    /// <summary>By how many lanes to look back, and the days each lane needs behind it to do so.</summary>
    private static readonly (Vector512<int> From, Vector512<int> Needs)[] Steps = [Step(1), Step(2), Step(4), Step(8)];

    /// <summary>From <paramref name="least"/> to <paramref name="most"/> nights.</summary>
    /// <param name="above">First day of the row, after a margin of sixteen days that hold nothing.</param>
    /// <param name="passed">Nights with room before each day.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Within(ref int above, ref int passed, ref int least, (int Least, int Most) nights, int days)
    {
        var never = Vector512.Create(PlacementTable.Never);
        for (var day = 0; day < days; day += Lanes)
        {
            var room = Vector512.LoadUnsafe(ref passed, (nuint)day);
            var cheapest = never;
            for (var gap = nights.Least; gap <= Math.Min(nights.Most, day + Lanes - 1); gap++)
            {
                var reached = Vector512.LoadUnsafe(ref Unsafe.Add(ref above, day - gap));
                var passable = Vector512.GreaterThanOrEqual(room, Vector512.Create(gap));
                cheapest = Vector512.Min(cheapest, Vector512.ConditionalSelect(passable, reached, never));
            }

            cheapest.StoreUnsafe(ref least, (nuint)day);
        }
    }

    /// <summary>
    /// At least so many nights: what the day before was reached from, this one is reached from too, and in sixteen days
    /// everything is passed on in four steps of 1, 2, 4 and 8 days.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void AtLeast(ref int above, ref int passed, ref int least, int nights, int days)
    {
        var never = Vector512.Create(PlacementTable.Never);
        var dayBefore = never;
        for (var day = 0; day < days; day += Lanes)
        {
            var room = Vector512.LoadUnsafe(ref passed, (nuint)day);
            var cheapest = never;
            if (nights < day + Lanes)
            {
                var reached = Vector512.LoadUnsafe(ref Unsafe.Add(ref above, day - nights));
                var passable = Vector512.GreaterThanOrEqual(room, Vector512.Create(nights));
                cheapest = Vector512.ConditionalSelect(passable, reached, never);
            }

            foreach (ref readonly var step in Steps.AsSpan())
            {
                cheapest = PassOn(cheapest, Vector512.Shuffle(cheapest, step.From), room, step.Needs);
            }

            cheapest = PassOn(cheapest, dayBefore, room, Vector512<int>.Indices + Vector512<int>.One);
            dayBefore = Vector512.Create(cheapest[Lanes - 1]);
            cheapest.StoreUnsafe(ref least, (nuint)day);
        }
    }

    /// <summary>Exactly so many nights, on days that are not too soon; added to what a longer rest holds.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Exactly(ref int above, ref int passed, ref int tooSoon, ref int least, int nights, int days)
    {
        for (var day = 0; day < days; day += Lanes)
        {
            if (nights >= day + Lanes)
            {
                continue;
            }

            var longer = Vector512.LoadUnsafe(ref least, (nuint)day);
            var reached = Vector512.LoadUnsafe(ref Unsafe.Add(ref above, day - nights));
            var room = Vector512.LoadUnsafe(ref passed, (nuint)day);
            var passable = Vector512.AndNot(
                Vector512.GreaterThanOrEqual(room, Vector512.Create(nights)),
                Vector512.LoadUnsafe(ref tooSoon, (nuint)day)
            );
            var cheapest = Vector512.Min(longer, reached);
            Vector512.ConditionalSelect(passable, cheapest, longer).StoreUnsafe(ref least, (nuint)day);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<int> PassOn(
        Vector512<int> to,
        Vector512<int> from,
        Vector512<int> room,
        Vector512<int> needs
    ) => Vector512.ConditionalSelect(Vector512.GreaterThanOrEqual(room, needs), Vector512.Min(to, from), to);

    private static (Vector512<int> From, Vector512<int> Needs) Step(int days)
    {
        var from = Vector512<int>.Indices - Vector512.Create(days);
        var isInside = Vector512.GreaterThanOrEqual(from, Vector512<int>.Zero);
        var needs = Vector512.ConditionalSelect(isInside, Vector512.Create(days), Vector512.Create(int.MaxValue));
        return (Vector512.Max(from, Vector512<int>.Zero), needs);
    }
}
