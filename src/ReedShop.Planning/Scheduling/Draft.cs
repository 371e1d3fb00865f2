namespace ReedShop.Planning.Scheduling;

/// <summary>A plan in the making: the places of each batch, what the bench still offers, and what it costs so far.</summary>
internal sealed class Draft
{
    private readonly Aim[] aims;
    private readonly Announced? announced;
    private readonly Placement placement;
    private readonly Occupancy occupancy;
    private readonly Places places;
    private readonly long[] costs;
    private readonly int[] trial;

    public Draft(WorkTable table, Aim[] aims, Announced? announced = null)
    {
        Table = table;
        this.aims = aims;
        this.announced = announced;
        occupancy = new Occupancy(table);
        placement = new Placement(table, occupancy, announced);
        places = new Places(table);
        costs = new long[table.Batches.Length];
        trial = new int[table.MostSittings];
        Clear();
    }

    public WorkTable Table { get; }

    public long Cost { get; private set; }

    /// <summary>Where everything is; others may read it, and copy it to come back to it.</summary>
    public Places Places => places;

    public bool IsPlanned(int batch) => places.Has(batch);

    public long CostOf(int batch) => costs[batch];

    public ReadOnlySpan<int> DaysOf(int batch) => places.Days(batch);

    public int Start(int batch) => places.Days(batch)[0];

    public int Finish(int batch) => places.Days(batch)[^1] + Table.Gap[Table.First[batch + 1] - 1];

    public bool IsLate(int batch) => IsPlanned(batch) && Table.Batches[batch].DueDay < Finish(batch);

    /// <summary>A draft of the same workload and wishes with nothing planned.</summary>
    public Draft Empty() => new(Table, aims, announced);

    public Draft Copy()
    {
        var copy = Empty();
        copy.occupancy.CopyFrom(occupancy);
        copy.places.CopyFrom(places);
        costs.CopyTo(copy.costs, 0);
        copy.Cost = Cost;
        return copy;
    }

    public void Clear()
    {
        occupancy.Clear();
        places.Clear();
        Array.Fill(costs, PlanCost.Unplanned);
        Cost = PlanCost.Unplanned * costs.Length;
    }

    /// <summary>
    /// Gives a batch its cheapest place among those planned; false where none costs less than <paramref name="limit"/>.
    /// </summary>
    public bool Place(int batch, long limit = long.MaxValue) => Place(batch, limit, Lean.None);

    public bool Place(int batch, long limit, in Lean lean)
    {
        var days = trial.AsSpan(0, Table.Sittings(batch));
        var found = placement.TryFind(batch, aims[batch], limit, lean, days, out var cost);
        if (found)
        {
            Choose(batch, days);
            Book(batch, cost);
        }

        return found;
    }

    /// <summary>Gives a batch the place that finishes first.</summary>
    public bool PlaceEarliest(int batch)
    {
        var aim = Aim.Earliest with { LatestFinish = aims[batch].LatestFinish };
        var days = trial.AsSpan(0, Table.Sittings(batch));
        var found = placement.TryFind(batch, aim, long.MaxValue, Lean.None, days, out _);
        if (found)
        {
            Put(batch, days);
        }

        return found;
    }

    /// <summary>Puts a batch on days, with the people named or else with those who suit best.</summary>
    public void Put(int batch, ReadOnlySpan<int> days, ReadOnlySpan<int> people = default)
    {
        Choose(batch, days, people);
        Book(batch, CostOnDays(batch));
    }

    /// <summary>Puts a batch where it was.</summary>
    public void Put(int batch, Places kept)
    {
        places.CopyFrom(kept, batch);
        Book(batch, CostOnDays(batch));
    }

    /// <summary>Takes over all places, at what they cost by the wishes of this draft.</summary>
    public void PutAll(Places kept)
    {
        for (var batch = 0; batch < costs.Length; batch++)
        {
            if (kept.Has(batch))
            {
                Put(batch, kept);
            }
        }
    }

    public void Take(int batch)
    {
        occupancy.Take(batch, places.Days(batch), places.People(batch));
        places.Drop(batch);
        Cost += PlanCost.Unplanned - costs[batch];
        costs[batch] = PlanCost.Unplanned;
    }

    /// <summary>The same, only if there is room among the others.</summary>
    public bool TryPut(int batch, ReadOnlySpan<int> days, ReadOnlySpan<int> people)
    {
        Choose(batch, days, people);
        occupancy.Put(batch, days, places.People(batch));
        var fits = occupancy.Holds(days);
        occupancy.Take(batch, days, places.People(batch));
        if (fits)
        {
            Book(batch, CostOnDays(batch));
        }
        else
        {
            places.Drop(batch);
        }

        return fits;
    }

    /// <summary>Whether a day, by itself, offers what a sitting needs.</summary>
    public bool Fits(int sitting, int day) =>
        (Table.Pinned[sitting] == WorkTable.NoDay || Table.Pinned[sitting] == day) && occupancy.Fits(sitting, day);

    /// <summary>What a batch costs at the least whose first sittings are on these days.</summary>
    public long LeastCost(int batch, ReadOnlySpan<int> first)
    {
        var earliest = first[^1] + Table.Ahead[Table.First[batch] + first.Length - 1];
        var finish = Math.Max(earliest, aims[batch].DueDay);
        var moved = announced?.MoveCost(Table.First[batch], first) ?? 0;
        return aims[batch].CostOf(first[0], finish, Table.LeastStay[batch]) + moved;
    }

    /// <summary>Moves a batch to a cheaper place; without one it stays where it is.</summary>
    public bool Improve(int batch)
    {
        var (cost, start) = (costs[batch], Start(batch));
        Take(batch);
        if (Place(batch, cost))
        {
            return true;
        }

        places.Days(batch)[0] = start;
        Book(batch, cost);
        return false;
    }

    public Plan ToPlan()
    {
        var planned = Enumerable.Range(0, costs.Length).Where(IsPlanned).ToArray();
        var days = planned.ToDictionary(Id, batch => DaysOf(batch).ToArray(), StringComparer.Ordinal);
        return Table.People == 1
            ? new Plan(days)
            : new Plan(days)
            {
                People = planned.ToDictionary(Id, batch => places.People(batch).ToArray(), StringComparer.Ordinal),
            };
    }

    private string Id(int batch) => Table.Batches[batch].Id;

    private void Choose(int batch, ReadOnlySpan<int> days, ReadOnlySpan<int> named = default)
    {
        days.CopyTo(places.Days(batch));
        var people = places.People(batch);
        if (named.Length == days.Length && !named.ContainsAnyExceptInRange(0, Table.People - 1))
        {
            named.CopyTo(people);
            return;
        }

        for (var k = 0; k < days.Length; k++)
        {
            people[k] = occupancy.PersonFor(Table.First[batch] + k, days[k]);
        }
    }

    private void Book(int batch, long cost)
    {
        occupancy.Put(batch, places.Days(batch), places.People(batch));
        Cost += cost - costs[batch];
        costs[batch] = cost;
    }

    private long CostOnDays(int batch) =>
        aims[batch].CostOf(Table, batch, DaysOf(batch)) + (announced?.MoveCost(Table.First[batch], DaysOf(batch)) ?? 0);
}
