using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>How a batch is to be divided: so many blanks on each tray.</summary>
public sealed record TraySizes(IReadOnlyList<int> Trays);

/// <summary>The trays that are to join a batch.</summary>
public sealed record TraysToMerge(IReadOnlyList<string> Trays);

/// <summary>Splits a batch into trays and merges trays that stand at the same step.</summary>
public sealed class Trays(JournalStore journal)
{
    private const int MostTrays = 26;

    public Result<IReadOnlyList<Batch>> Split(BenchFacts facts, Batch batch, TraySizes sizes)
    {
        if (!batch.IsOpen)
        {
            return Refusal.Stage($"Batch {batch.Number} is closed.", "a batch that is planned or on the bench");
        }

        if (
            sizes.Trays.Count is < 2 or > MostTrays
            || sizes.Trays.Any(size => size < 1)
            || sizes.Trays.Sum(size => (long)size) != batch.Blanks
        )
        {
            return Refusal.Invalid(
                "trays",
                $"The trays do not hold the {batch.Blanks} blanks of the batch.",
                $"2 to {MostTrays} trays of at least one blank that add up to {batch.Blanks}"
            );
        }

        var split = new List<Batch> { batch };
        foreach (var size in sizes.Trays.Skip(1))
        {
            split.Add(SplitOff(facts, batch, size));
        }

        batch.Blanks = sizes.Trays[0];
        batch.Version++;
        journal.Write("owner", $"batch {batch.Number}", $"split into {string.Join(", ", split.Select(t => t.Number))}");
        return split;
    }

    public Result<Batch> Merge(BenchFacts facts, Batch batch, TraysToMerge others)
    {
        var trays = facts.OpenBatches.Where(tray => others.Trays.Contains(tray.Id)).ToArray();
        if (trays.Length == 0 || trays.Length != others.Trays.Count || !trays.All(tray => CanJoin(batch, tray)))
        {
            return Refusal.Invalid(
                "trays",
                $"Not all of these can join batch {batch.Number}.",
                "other open trays of the same batch that stand at the same step"
            );
        }

        foreach (var tray in trays)
        {
            batch.Blanks += tray.Blanks;
            batch.LastWorkedOn = Later(batch.LastWorkedOn, tray.LastWorkedOn);
            batch.LastEndedUtc = Later(batch.LastEndedUtc, tray.LastEndedUtc);
            batch.DampNights = Math.Max(batch.DampNights, tray.DampNights);
            tray.Blanks = 0;
            tray.Stage = BatchStage.Emptied;
            tray.Version++;
        }

        batch.Version++;
        journal.Write("owner", $"batch {batch.Number}", $"joined by {string.Join(", ", trays.Select(t => t.Number))}");
        return batch;
    }

    /// <summary>A tray of the same batch at the same step. The caller takes its blanks off the batch.</summary>
    internal static Batch SplitOff(BenchFacts facts, Batch batch, int blanks)
    {
        var tray = new Batch
        {
            Id = Links.New(),
            Run = batch.Run,
            Number = NextNumber(facts, batch),
            Root = batch.Root,
            Model = batch.Model,
            CaneLot = batch.CaneLot,
            Aim = batch.Aim,
            FirstStep = batch.FirstStep,
            LastStep = batch.LastStep,
            NextStep = batch.NextStep,
            Started = blanks,
            Blanks = blanks,
            RedoOf = batch.RedoOf,
            Stage = batch.Stage,
            PlannedOn = batch.PlannedOn,
            NotBefore = batch.NotBefore,
            LastWorkedOn = batch.LastWorkedOn,
            LastEndedUtc = batch.LastEndedUtc,
            DampNights = batch.DampNights,
        };
        facts.Add(tray);
        return tray;
    }

    private static string NextNumber(BenchFacts facts, Batch batch)
    {
        facts.TraysOfRun[batch.Run] = facts.TraysOfRun.GetValueOrDefault(batch.Run) + 1;
        var letters = "";
        for (var left = facts.TraysOfRun[batch.Run]; left > 0; left = (left - 1) / MostTrays)
        {
            letters = (char)('a' + ((left - 1) % MostTrays)) + letters;
        }

        return FormattableString.Invariant($"{batch.Run}{letters}");
    }

    internal static bool CanJoin(Batch batch, Batch tray) =>
        tray.Id != batch.Id
        && batch.IsOpen
        && (tray.Root, tray.NextStep, tray.LastStep, tray.RedoOf, tray.Stage)
            == (batch.Root, batch.NextStep, batch.LastStep, batch.RedoOf, batch.Stage);

    private static DateOnly? Later(DateOnly? one, DateOnly? other) => one > other || other is null ? one : other;

    private static DateTime? Later(DateTime? one, DateTime? other) => one > other || other is null ? one : other;
}
