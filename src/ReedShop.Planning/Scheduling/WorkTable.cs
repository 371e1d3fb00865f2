namespace ReedShop.Planning.Scheduling;

/// <summary>
/// A workload as flat arrays, made once for a search: batches and sittings by number, sittings of batch b at
/// <c>First[b]</c> up to <c>First[b + 1]</c>.
/// </summary>
internal sealed class WorkTable
{
    public const int NoDay = -1;

    public WorkTable(Workload work, WorkBatch? newcomer = null)
    {
        Work = work;
        Batches = [.. work.Batches.Where(batch => batch.Id != newcomer?.Id)];
        if (newcomer is not null)
        {
            Batches = [.. Batches, newcomer];
        }

        Number = Batches.Select((batch, b) => (batch.Id, b)).ToDictionary(StringComparer.Ordinal);
        Release = [.. Batches.Select(batch => Math.Max(0, batch.ReleaseDay))];
        Blanks = [.. Batches.Select(batch => batch.Blanks)];
        LeastStay = [.. Batches.Select(batch => batch.LeastStay)];
        First = new int[Batches.Length + 1];
        for (var b = 0; b < Batches.Length; b++)
        {
            First[b + 1] = First[b] + Batches[b].Sittings.Count;
        }

        var all = Batches.SelectMany(batch => batch.Sittings).ToArray();
        Minutes = [.. all.Select(sitting => sitting.Minutes)];
        Nights = [.. all.Select(sitting => sitting.Nights)];
        Gap = [.. Batches.SelectMany(batch => batch.Sittings.Select((_, k) => batch.LeastNightsAfter(k)))];
        Ahead =
        [
            .. Batches.SelectMany(batch =>
                batch.Sittings.Select(
                    (_, k) => Enumerable.Range(k, batch.Sittings.Count - k).Sum(batch.LeastNightsAfter)
                )
            ),
        ];
        Most = [.. all.Select(sitting => sitting.MostNights ?? int.MaxValue)];
        Pinned = [.. all.Select(sitting => sitting.PinnedDay ?? NoDay)];

        SetUps = new SetUpTable(work, all);
        BatchOf = [.. Batches.SelectMany((batch, b) => batch.Sittings.Select(_ => b))];
        var tiring = work.MostBlanks.Keys.Order(StringComparer.Ordinal).ToArray();
        TiringWork = tiring;
        Tiring = [.. all.Select(sitting => Array.IndexOf(tiring, sitting.Tiring?.Name))];
        TiringBlanks = [.. all.Select(sitting => sitting.Tiring?.Blanks ?? 0)];

        TiePrice = [.. Batches.Select(batch => SetUpMinutes(batch) < PlacementTable.Scale ? 1 : 0)];
        MostSittings = Batches.Select(batch => batch.Sittings.Count).DefaultIfEmpty().Max();
        ByDue = InOrderOfDue();
        Days = work.OpenMinutes.Count;
        LastFinish = Days - 1 + Batches.Select(batch => batch.Sittings[^1].Nights).DefaultIfEmpty().Max();
        Words = (LastFinish / 64) + 1;
        Stride = ((Words + 1) * 64) + 16;
        var shortRests = new Dictionary<(int Nights, int Hours), int[]?>();
        TooSoon = [.. Batches.SelectMany(batch => batch.Sittings.Select((_, k) => ShortRests(batch, k, shortRests)))];
    }

    public Workload Work { get; }
    public WorkBatch[] Batches { get; }
    public Dictionary<string, int> Number { get; }
    public int[] First { get; }
    public int[] Release { get; }
    public int[] Blanks { get; }
    public int[] LeastStay { get; }

    public int[] Minutes { get; }

    /// <summary>Nights required after each sitting.</summary>
    public int[] Nights { get; }

    /// <summary>Least days from each sitting to the next, or to the finish.</summary>
    public int[] Gap { get; }

    /// <summary>Least days from each sitting to the finish.</summary>
    public int[] Ahead { get; }

    /// <summary>Most days from each sitting to the next.</summary>
    public int[] Most { get; }
    public int[] Pinned { get; }

    /// <summary>
    /// By sitting, the days (all bits set) on which a rest of its least nights would end before its hours have passed;
    /// null where none would.
    /// </summary>
    public int[]?[] TooSoon { get; }

    /// <summary>By sitting, the number of the tiring work it does, or -1.</summary>
    public int[] Tiring { get; }
    public int[] TiringBlanks { get; }

    /// <summary>Tiring work by number.</summary>
    public string[] TiringWork { get; }

    public int[] BatchOf { get; }

    public SetUpTable SetUps { get; }

    /// <summary>
    /// By batch, what a set-up minute weighs among places of equal cost; nothing where so many minutes would come to
    /// weigh as much as a cost.
    /// </summary>
    public int[] TiePrice { get; }

    /// <summary>Batches in the order they are due; those with days of their own, or on the rack already, come first.</summary>
    public int[] ByDue { get; }

    public int MostSittings { get; }

    public int Days { get; }

    /// <summary>The last day on which a batch may finish: trailing nights may pass the horizon.</summary>
    public int LastFinish { get; }

    /// <summary>Words of 64 days that cover every finish day.</summary>
    public int Words { get; }

    /// <summary>
    /// Length of a row of days, with a margin so that a window of whole words may begin on any day. The odd 16 keep
    /// the same day of several rows from falling into one set of the processor's cache.
    /// </summary>
    public int Stride { get; }

    public int People => Work.People;

    public int Sittings(int batch) => First[batch + 1] - First[batch];

    /// <summary>The first day the sitting after this one may be, by its least nights and hours.</summary>
    public int NextDay(int sitting, int day)
    {
        var next = day + Gap[sitting];
        return next < Days && TooSoon[sitting]?[next] < 0 ? next + 1 : next;
    }

    /// <summary>A batch that cannot give way: a day of its own, or a place on the rack already.</summary>
    public static bool IsBound(WorkBatch batch) => batch.OnRack || IsPinned(batch);

    private static bool IsPinned(WorkBatch batch) => batch.Sittings.Any(sitting => sitting.PinnedDay is not null);

    private int SetUpMinutes(WorkBatch batch) =>
        batch.Sittings.SelectMany(sitting => sitting.SetUps).Sum(key => Work.SetUpMinutes[key]);

    /// <summary>Most rests of a shop are alike, and the days of each kind are looked through once.</summary>
    private int[]? ShortRests(WorkBatch batch, int sitting, Dictionary<(int Nights, int Hours), int[]?> known)
    {
        var rest = (Nights: batch.LeastNightsAfter(sitting), Hours: batch.Sittings[sitting].LeastHours);
        if (rest.Hours == 0 || sitting == batch.Sittings.Count - 1)
        {
            return null;
        }

        if (!known.TryGetValue(rest, out var days))
        {
            known[rest] = days = ShortRests(rest.Nights, rest.Hours);
        }

        return days;
    }

    private int[]? ShortRests(int nights, int hours)
    {
        var days = new int[Stride];
        for (var day = 0; day < Days; day++)
        {
            days[day] = Work.IsTooShort(nights, hours, day) ? -1 : 0;
        }

        return days.Contains(-1) ? days : null;
    }

    private int[] InOrderOfDue() =>
        [
            .. from batch in Enumerable.Range(0, Batches.Length)
            let work = Batches[batch]
            orderby !IsPinned(work), !work.OnRack, work.DueDay is null, work.DueDay ?? work.ReleaseDay, batch
            select batch,
        ];
}
