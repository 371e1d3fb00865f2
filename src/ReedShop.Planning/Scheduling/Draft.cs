namespace ReedShop.Planning.Scheduling;

/// <summary>A plan in the making: the days of each batch, what the bench still offers, and what it costs so far.</summary>
internal sealed class Draft
{
    private readonly Aim[] aims;
    private readonly Announced? announced;
    private readonly Placement placement;
    private readonly Occupancy occupancy;
    private readonly int[] days;
    private readonly bool[] planned;
    private readonly long[] costs;
    private readonly int[] trial;

    public Draft(WorkTable table, Aim[] aims, Announced? announced = null)
    {
        Table = table;
        this.aims = aims;
        this.announced = announced;
        occupancy = new Occupancy(table);
        placement = new Placement(table, occupancy, announced);
        days = new int[table.Minutes.Length];
        planned = new bool[table.Batches.Length];
        costs = new long[table.Batches.Length];
        trial = new int[table.MostSittings];
        Clear();
    }

    public WorkTable Table { get; }

    public long Cost { get; private set; }

    public bool IsPlanned(int batch) => planned[batch];

    public long CostOf(int batch) => costs[batch];

    public ReadOnlySpan<int> DaysOf(int batch) => Slots(batch);

    public int Start(int batch) => days[Table.First[batch]];

    public int Finish(int batch) => days[Table.First[batch + 1] - 1] + Table.Gap[Table.First[batch + 1] - 1];

    public bool IsLate(int batch) => planned[batch] && Table.Batches[batch].DueDay < Finish(batch);

    /// <summary>A draft of the same workload and wishes with nothing planned.</summary>
    public Draft Empty() => new(Table, aims, announced);

    public Draft Copy()
    {
        var copy = Empty();
        copy.CopyFrom(this);
        return copy;
    }

    public void Clear()
    {
        occupancy.Clear();
        Array.Clear(planned);
        Array.Fill(costs, PlanCost.Unplanned);
        Cost = PlanCost.Unplanned * costs.Length;
    }

    public void CopyFrom(Draft other)
    {
        occupancy.CopyFrom(other.occupancy);
        other.days.CopyTo(days, 0);
        other.planned.CopyTo(planned, 0);
        other.costs.CopyTo(costs, 0);
        Cost = other.Cost;
    }

    /// <summary>
    /// Gives a batch its cheapest place among those planned; false where none costs less than <paramref name="limit"/>.
    /// </summary>
    public bool Place(int batch, long limit = long.MaxValue) => Place(batch, limit, Lean.None);

    public bool Place(int batch, long limit, in Lean lean)
    {
        var place = trial.AsSpan(0, Table.Sittings(batch));
        var found = placement.TryFind(batch, aims[batch], limit, lean, place, out var cost);
        if (found)
        {
            place.CopyTo(Slots(batch));
            Book(batch, cost);
        }

        return found;
    }

    /// <summary>Gives a batch the place that finishes first.</summary>
    public bool PlaceEarliest(int batch)
    {
        var aim = Aim.Earliest with { LatestFinish = aims[batch].LatestFinish };
        var place = trial.AsSpan(0, Table.Sittings(batch));
        var found = placement.TryFind(batch, aim, long.MaxValue, Lean.None, place, out _);
        if (found)
        {
            Put(batch, place);
        }

        return found;
    }

    public void Put(int batch, ReadOnlySpan<int> chosen)
    {
        chosen.CopyTo(Slots(batch));
        Book(batch, CostOnDays(batch));
    }

    public int[] CopyDays()
    {
        var kept = new int[days.Length];
        CopyDaysTo(kept);
        return kept;
    }

    /// <summary>Writes the days of all sittings; a batch without a place begins on <see cref="WorkTable.NoDay"/>.</summary>
    public void CopyDaysTo(Span<int> kept)
    {
        days.CopyTo(kept);
        for (var batch = 0; batch < planned.Length; batch++)
        {
            if (!planned[batch])
            {
                kept[Table.First[batch]] = WorkTable.NoDay;
            }
        }
    }

    /// <summary>Takes over days so written, at what they cost by the wishes of this draft.</summary>
    public void PutAll(ReadOnlySpan<int> kept)
    {
        for (var batch = 0; batch < planned.Length; batch++)
        {
            if (kept[Table.First[batch]] != WorkTable.NoDay)
            {
                Put(batch, kept.Slice(Table.First[batch], Table.Sittings(batch)));
            }
        }
    }

    public void Take(int batch)
    {
        occupancy.Take(batch, Slots(batch));
        planned[batch] = false;
        Cost += PlanCost.Unplanned - costs[batch];
        costs[batch] = PlanCost.Unplanned;
    }

    /// <summary>Whether days that obey the batch's own rules also find room among the others.</summary>
    public bool HasRoom(int batch, ReadOnlySpan<int> chosen)
    {
        occupancy.Put(batch, chosen);
        var fits = occupancy.Holds(chosen);
        occupancy.Take(batch, chosen);
        return fits;
    }

    /// <summary>Moves a batch to a cheaper place; without one it stays where it is.</summary>
    public bool Improve(int batch)
    {
        var cost = costs[batch];
        Take(batch);
        if (Place(batch, cost))
        {
            return true;
        }

        Book(batch, cost);
        return false;
    }

    public Plan ToPlan() =>
        new(
            Enumerable
                .Range(0, planned.Length)
                .Where(IsPlanned)
                .ToDictionary(b => Table.Batches[b].Id, b => DaysOf(b).ToArray(), StringComparer.Ordinal)
        );

    private Span<int> Slots(int batch) => days.AsSpan(Table.First[batch], Table.Sittings(batch));

    private void Book(int batch, long cost)
    {
        occupancy.Put(batch, Slots(batch));
        planned[batch] = true;
        Cost += cost - costs[batch];
        costs[batch] = cost;
    }

    private long CostOnDays(int batch) =>
        aims[batch].CostOf(Table, batch, DaysOf(batch)) + (announced?.MoveCost(Table.First[batch], DaysOf(batch)) ?? 0);
}
