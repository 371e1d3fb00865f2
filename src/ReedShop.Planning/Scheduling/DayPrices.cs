using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ReedShop.Planning.Scheduling;

/// <summary>What one sitting costs by itself on each day of a window, where it may be and fits. In 1/1024.</summary>
internal sealed class DayPrices(WorkTable table, Occupancy occupancy, RackNights nights, Announced? announced)
{
    public const int Draws = 4096;

    private const int Lanes = RackNights.Lanes;
    private const int Never = PlacementTable.Never;
    private const int Scale = PlacementTable.Scale;

    private static readonly int[] Chances = DrawChances();

    private readonly bool restricts = announced is not null || table.Work.RackCharge != RackCharge.WholeStay;

    /// <summary>Fills a row for one sitting of a batch, from the first day of the window on.</summary>
    public void Fill(int sitting, int number, int windowStart, Span<int> row, in Lean lean)
    {
        row.Fill(Never);
        for (var person = 0; person < table.People; person++)
        {
            Price(sitting, person, windowStart, row, lean);
        }

        Add(number, row, lean);
        if (table.Tiring[sitting] >= 0)
        {
            SpareHands(sitting, windowStart, row);
        }

        if (restricts || table.Pinned[sitting] != WorkTable.NoDay)
        {
            Restrict(sitting, windowStart, row);
        }
    }

    /// <summary>The set-ups that a person who has the minutes would have to pay; of all people the least.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Price(int sitting, int person, int windowStart, Span<int> row, in Lean lean)
    {
        ref var cost = ref MemoryMarshal.GetReference(row);
        ref var setUp = ref Unsafe.AsRef(in occupancy.Unpaid(person, table.SetOf[sitting])[windowStart]);
        ref var free = ref Unsafe.AsRef(in occupancy.Free(person)[windowStart]);
        var minutes = Vector512.Create(table.Minutes[sitting]);
        var price = Vector512.Create(lean.SetUpPrice);
        for (nuint day = 0; day < (nuint)row.Length; day += Lanes)
        {
            var unpaid = Vector512.LoadUnsafe(ref setUp, day);
            var fits = Vector512.GreaterThanOrEqual(Vector512.LoadUnsafe(ref free, day), unpaid + minutes);
            var before = Vector512.LoadUnsafe(ref cost, day);
            var least = Vector512.Min(before, unpaid * price);
            Vector512.ConditionalSelect(fits, least, before).StoreUnsafe(ref cost, day);
        }
    }

    /// <summary>Chance, and for the first sitting the nights by which it is early.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(int number, Span<int> row, in Lean lean)
    {
        if (number > 0 && lean.Chance == 0)
        {
            return;
        }

        ref var cost = ref MemoryMarshal.GetReference(row);
        ref var chance = ref Chances[(lean.Draw + (97 * number)) % Draws];
        var never = Vector512.Create(Never);
        var most = Vector512.Create(lean.Chance);
        var night = Vector512.Create(number == 0 ? Scale : 0);
        var early = (Vector512.Create(row.Length) - Vector512<int>.Indices) * night;
        for (nuint day = 0; day < (nuint)row.Length; day += Lanes)
        {
            var own = Vector512.LoadUnsafe(ref cost, day);
            var added = own + early + (Vector512.LoadUnsafe(ref chance, day) * most);
            Vector512.ConditionalSelect(Vector512.Equals(own, never), never, added).StoreUnsafe(ref cost, day);
            early -= night * Lanes;
        }
    }

    private void SpareHands(int sitting, int windowStart, Span<int> row)
    {
        var rested = occupancy.Rested(table.Tiring[sitting])[windowStart..];
        for (var day = 0; day < row.Length; day++)
        {
            row[day] = rested[day] >= table.TiringBlanks[sitting] ? row[day] : Never;
        }
    }

    /// <summary>What binds few batches: a pinned day, announced days, a rack charged by required nights.</summary>
    private void Restrict(int sitting, int windowStart, Span<int> row)
    {
        var pinned = table.Pinned[sitting];
        var wholeStay = table.Work.RackCharge == RackCharge.WholeStay;
        for (var day = 0; day < row.Length; day++)
        {
            var allowed =
                (pinned == WorkTable.NoDay || pinned == windowStart + day)
                && (wholeStay || nights.After[day] >= table.Nights[sitting]);
            var moved = announced?.MoveCost(sitting, windowStart + day) ?? 0;
            row[day] = allowed ? Math.Min(Never, row[day] + (moved * Scale)) : Never;
        }
    }

    private static int[] DrawChances()
    {
        var dice = new Dice(1);
        var chances = new int[2 * Draws];
        foreach (ref var chance in chances.AsSpan())
        {
            chance = dice.Below(Scale);
        }

        return chances;
    }
}
