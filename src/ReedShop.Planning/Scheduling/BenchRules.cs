namespace ReedShop.Planning.Scheduling;

/// <summary>The rules that bind all batches together: minutes, tiring work, and the rack.</summary>
internal static class BenchRules
{
    public static IEnumerable<PlanBreach> Check(Workload work, Plan plan) =>
        [
            .. Enumerable.Range(0, work.People).SelectMany(person => OpenMinutes(work, plan, person)),
            .. work.MostBlanks.Keys.SelectMany(tiring => MostBlanks(work, plan, tiring)),
            .. RackRoom(work, plan),
        ];

    public static IEnumerable<(WorkBatch Batch, int[] Days)> Placed(Workload work, Plan plan) =>
        from batch in work.Batches
        let days = plan.Days.GetValueOrDefault(batch.Id)
        where days is not null && days.Length == batch.Sittings.Count
        select (batch, days);

    /// <summary>The sittings a person has on a day and, once for each key they use, its set-up fit into their minutes.</summary>
    private static IEnumerable<PlanBreach> OpenMinutes(Workload work, Plan plan, int person)
    {
        var minutes = new int[work.OpenMinutes.Count];
        var paid = new HashSet<(int Day, string Key)>();
        foreach (var (batch, days) in Placed(work, plan))
        {
            var people = plan.People.GetValueOrDefault(batch.Id);
            for (var k = 0; k < days.Length; k++)
            {
                if (days[k] >= 0 && days[k] < minutes.Length && PersonAt(people, k) == person)
                {
                    minutes[days[k]] += batch.Sittings[k].Minutes + Unpaid(work, batch.Sittings[k], days[k], paid);
                }
            }
        }

        return Above(PlanRule.OpenMinutes, minutes, day => work.MinutesOf(person, day));
    }

    private static int PersonAt(int[]? people, int sitting) => sitting < people?.Length ? people[sitting] : 0;

    private static int Unpaid(Workload work, WorkSitting sitting, int day, HashSet<(int Day, string Key)> paid)
    {
        var minutes = 0;
        foreach (var key in sitting.SetUps)
        {
            minutes += paid.Add((day, key)) ? work.SetUpMinutes[key] : 0;
        }

        return minutes;
    }

    /// <summary>Lips and hands last for so many blanks a day, whichever batches they belong to.</summary>
    private static IEnumerable<PlanBreach> MostBlanks(Workload work, Plan plan, string tiring)
    {
        var blanks = new int[work.OpenMinutes.Count];
        foreach (var (batch, days) in Placed(work, plan))
        {
            for (var k = 0; k < days.Length; k++)
            {
                if (batch.Sittings[k].Tiring?.Name == tiring && days[k] >= 0 && days[k] < blanks.Length)
                {
                    blanks[days[k]] += batch.Sittings[k].Tiring!.Blanks;
                }
            }
        }

        return Above(PlanRule.MostBlanks, blanks, day => work.MostBlanksOn(tiring, day));
    }

    /// <summary>The blanks that lie on the rack on a night have room there.</summary>
    private static IEnumerable<PlanBreach> RackRoom(Workload work, Plan plan)
    {
        var placed = Placed(work, plan).ToArray();
        var blanks = new int[placed.Select(p => Math.Max(0, p.Batch.FinishDay(p.Days))).DefaultIfEmpty().Max()];
        foreach (var (batch, days) in placed)
        {
            var free = 0;
            foreach (var (from, until) in NightsOnRack(work, batch, days))
            {
                for (var night = Math.Max(free, from); night < Math.Min(until, blanks.Length); night++)
                {
                    blanks[night] += batch.Blanks;
                }

                free = Math.Max(free, until);
            }
        }

        return Above(PlanRule.RackRoom, blanks, _ => work.RackBlanks);
    }

    /// <summary>The runs of nights on which a batch takes its place on the rack, in order; night t follows day t.</summary>
    private static IEnumerable<(int From, int Until)> NightsOnRack(Workload work, WorkBatch batch, int[] days)
    {
        if (batch.OnRack)
        {
            yield return (0, days[0]);
        }

        if (work.RackCharge == RackCharge.WholeStay)
        {
            yield return (days[0], batch.FinishDay(days));
            yield break;
        }

        for (var k = 0; k < days.Length; k++)
        {
            yield return (days[k], days[k] + batch.Sittings[k].Nights);
        }
    }

    /// <summary>The days or nights that hold more than they may.</summary>
    private static IEnumerable<PlanBreach> Above(PlanRule rule, int[] found, Func<int, int> allowed) =>
        from day in Enumerable.Range(0, found.Length)
        where found[day] > 0 && found[day] > allowed(day)
        select new PlanBreach(rule, null, day, found[day], allowed(day));
}
