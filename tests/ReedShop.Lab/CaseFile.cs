using System.Text.Json;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab;

/// <summary>A planning case as it is written in a file, with its quote questions where it has any.</summary>
/// <param name="Promised">The plan that quote questions start from.</param>
/// <param name="Asked">The new batch of each question.</param>
internal sealed record CaseFile(string Name, Workload Work, Plan Promised, IReadOnlyList<WorkBatch> Asked)
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static IEnumerable<CaseFile> ReadAll(string folder) =>
        Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal).Select(Read);

    public static CaseFile Read(string path)
    {
        var text =
            JsonSerializer.Deserialize<CaseText>(File.ReadAllText(path), Json) ?? throw new JsonException("empty");
        var work = new Workload(text.BenchMinutes, text.RackBlanks, text.Setups, [.. text.Batches.Select(ToBatch)]);
        var promised = new Plan(text.Plan?.Days ?? []);
        return new(text.Name, work, promised, [.. (text.Quotes ?? []).Select(quote => ToBatch(quote.Batch))]);
    }

    private static WorkBatch ToBatch(BatchText batch) =>
        new(
            batch.Id,
            batch.Blanks,
            batch.Release,
            batch.Due,
            [.. batch.Sittings.Select(s => new WorkSitting(s.Minutes, s.Setups, s.Nights, s.MaxNights))],
            batch.Weight ?? 1
        );

    private sealed record CaseText(
        string Name,
        int[] BenchMinutes,
        int RackBlanks,
        Dictionary<string, int> Setups,
        BatchText[] Batches,
        QuoteText[]? Quotes,
        PlanText? Plan
    );

    private sealed record BatchText(string Id, int Blanks, int Release, int? Due, int? Weight, SittingText[] Sittings);

    private sealed record SittingText(int Minutes, string[] Setups, int Nights, int? MaxNights);

    private sealed record QuoteText(BatchText Batch);

    private sealed record PlanText(Dictionary<string, int[]> Days);
}
