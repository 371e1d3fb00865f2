namespace ReedShop.Planning.Scheduling;

/// <summary>A plan in the making: the days of each batch, what the bench still offers, and what it costs so far.</summary>
internal sealed class Draft
{
    private readonly Aim[] aims;
    private readonly Announced? announced;
    private readonly Placement placement;
    private readonly KeepingPlacement? keeping;
    private readonly Occupancy occupancy;
    private readonly int[] days;
    private readonly bool[] planned;
    private readonly long[] costs;

    public Draft(WorkTable table, Aim[] aims, Announced? announced = null)
    {
        Table = table;
        this.aims = aims;
        this.announced = announced;
        occupancy = new Occupancy(table);
        placement = new Placement(table, occupancy);
        keeping = announced is null ? null : new KeepingPlacement(table, occupancy, announced);
        days = new int[table.Minutes.Length];
        planned = new bool[table.Batches.Length];
        costs = new long[table.Batches.Length];
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

    /// <summary>Gives a batch its cheapest place among those planned; false where it fits nowhere.</summary>
    public bool Place(int batch)
    {
        var slots = Slots(batch);
        var found = keeping is null
            ? placement.TryFind(batch, aims[batch], slots, out var cost)
            : keeping.TryFind(batch, aims[batch], slots, out cost);
        if (found)
        {
            Book(batch, cost);
        }

        return found;
    }

    /// <summary>Gives a batch the place that finishes first.</summary>
    public bool PlaceEarliest(int batch)
    {
        var aim = Aim.Earliest with { LatestFinish = aims[batch].LatestFinish };
        var found = placement.TryFind(batch, aim, Slots(batch), out _);
        if (found)
        {
            Book(batch, CostOnDays(batch));
        }

        return found;
    }

    public void Put(int batch, ReadOnlySpan<int> chosen)
    {
        chosen.CopyTo(Slots(batch));
        Book(batch, CostOnDays(batch));
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

    /// <summary>Looks for a cheaper place; without one the batch stays where it is.</summary>
    public bool Improve(int batch)
    {
        Span<int> held = stackalloc int[Table.Sittings(batch)];
        DaysOf(batch).CopyTo(held);
        var cost = costs[batch];
        Take(batch);
        if (Place(batch) && costs[batch] < cost)
        {
            return true;
        }

        if (planned[batch])
        {
            Take(batch);
        }

        Put(batch, held);
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

    private long CostOnDays(int batch)
    {
        var cost = aims[batch].CostOf(Start(batch), Finish(batch), Table.LeastStay[batch]);
        for (var sitting = Table.First[batch]; announced is not null && sitting < Table.First[batch + 1]; sitting++)
        {
            cost += announced.MoveCost(sitting, days[sitting]);
        }

        return cost;
    }
}
