namespace ReedShop.Planning.Scheduling;

/// <summary>
/// A workload as the recovery rule reads it: sittings by number, those of batch b from <c>First[b]</c> up to
/// <c>First[b + 1]</c>, set-up keys by number.
/// </summary>
internal sealed class RecoveryWork
{
    public RecoveryWork(Workload work)
    {
        Batches = [.. work.Batches];
        First = new int[Batches.Length + 1];
        for (var b = 0; b < Batches.Length; b++)
        {
            First[b + 1] = First[b] + Batches[b].Sittings.Count;
        }

        var all = Batches.SelectMany(batch => batch.Sittings).ToArray();
        var keys = work.SetUpMinutes.Keys.Order(StringComparer.Ordinal).ToArray();
        Minutes = [.. all.Select(sitting => sitting.Minutes)];
        Nights = [.. all.Select(sitting => sitting.Nights)];
        Most = [.. all.Select(sitting => sitting.MostNights ?? int.MaxValue)];
        Pinned = [.. all.Select(sitting => sitting.PinnedDay)];
        Gap = [.. Batches.SelectMany(batch => batch.Sittings.Select((_, k) => batch.LeastNightsAfter(k)))];
        BatchOf = [.. Batches.SelectMany((batch, b) => batch.Sittings.Select(_ => b))];
        KeysOf =
        [
            .. all.Select(sitting => sitting.SetUps.Distinct().Select(key => Array.IndexOf(keys, key)).ToArray()),
        ];
        KeyMinutes = [.. keys.Select(key => work.SetUpMinutes[key])];
        OpenMinutes = [.. work.OpenMinutes];
        Releases = [.. Batches.Select(batch => Math.Max(0, batch.ReleaseDay))];
        RackBlanks = work.RackBlanks;
        WholeStay = work.RackCharge == RackCharge.WholeStay;
        ByDue = [.. Enumerable.Range(0, Batches.Length).OrderBy(Rank)];
        LastNight = OpenMinutes.Length + Gap.DefaultIfEmpty().Max();
    }

    public WorkBatch[] Batches { get; }
    public int[] First { get; }
    public int[] BatchOf { get; }
    public int[] Minutes { get; }
    public int[] Nights { get; }
    public int[] Most { get; }
    public int?[] Pinned { get; }

    /// <summary>Least days from each sitting to the next, or to the finish.</summary>
    public int[] Gap { get; }
    public int[][] KeysOf { get; }
    public int[] KeyMinutes { get; }
    public int[] OpenMinutes { get; }
    public int[] Releases { get; }
    public int RackBlanks { get; }
    public bool WholeStay { get; }

    /// <summary>Batches that cannot give way first, then the earliest due.</summary>
    public int[] ByDue { get; }

    public int LastNight { get; }

    public int Days => OpenMinutes.Length;

    public int Sittings => Minutes.Length;

    public int Count(int batch) => First[batch + 1] - First[batch];

    private (bool, int) Rank(int batch)
    {
        var work = Batches[batch];
        return (!WorkTable.IsBound(work), work.DueDay ?? int.MaxValue);
    }
}
