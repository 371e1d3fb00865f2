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
        Price(sitting, number, windowStart, row, lean);
        if (restricts || table.Pinned[sitting] != WorkTable.NoDay)
        {
            Restrict(sitting, windowStart, row);
        }
    }

    /// <summary>The set-ups nobody has paid, chance, and for the first sitting the nights by which it is early.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Price(int sitting, int number, int windowStart, Span<int> row, in Lean lean)
    {
        ref var cost = ref MemoryMarshal.GetReference(row);
        ref var setUp = ref MemoryMarshal.GetReference(
            occupancy.Unpaid(table.SetOf[sitting]).Slice(windowStart, row.Length)
        );
        ref var free = ref MemoryMarshal.GetReference(occupancy.Free.Slice(windowStart, row.Length));
        ref var chance = ref Chances[(lean.Draw + (97 * number)) % Draws];
        var minutes = Vector512.Create(table.Minutes[sitting]);
        var price = Vector512.Create(lean.SetUpPrice);
        var most = Vector512.Create(lean.Chance);
        var night = Vector512.Create(number == 0 ? Scale : 0);
        var early = (Vector512.Create(row.Length) - Vector512<int>.Indices) * night;
        for (nuint day = 0; day < (nuint)row.Length; day += Lanes)
        {
            var unpaid = Vector512.LoadUnsafe(ref setUp, day);
            var priced = early + (unpaid * price);
            if (lean.Chance > 0)
            {
                priced += Vector512.LoadUnsafe(ref chance, day) * most;
            }

            var fits = Vector512.GreaterThanOrEqual(Vector512.LoadUnsafe(ref free, day), unpaid + minutes);
            Vector512.ConditionalSelect(fits, priced, Vector512.Create(Never)).StoreUnsafe(ref cost, day);
            early -= night * Lanes;
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
