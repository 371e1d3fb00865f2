using ReedShop.Planning.Yields;
using ReedShop.Workshop;

namespace ReedShop.Insight;

/// <summary>The shares that batches kept at a step, the oldest first, with the range in which each would usually lie.</summary>
/// <param name="Mean">Share of all their blanks that were kept.</param>
public sealed record TrendView(string Step, double Mean, IReadOnlyList<TrendBatchView> Batches)
{
    /// <summary>More than these are not read from a chart.</summary>
    private const int MostShown = 40;

    public static TrendView Of(UsualRange range, IReadOnlyDictionary<string, Batch> roots) =>
        new(range.Step, range.Mean, [.. range.Points.TakeLast(MostShown).Select(point => Of(point, roots))]);

    private static TrendBatchView Of(RangePoint point, IReadOnlyDictionary<string, Batch> roots) =>
        new(
            roots.TryGetValue(point.Count.Batch, out var root) ? root.Number : point.Count.Batch,
            root?.Id,
            point.Count.CaneLot,
            point.Count.Day,
            point.Count.In,
            point.Count.Out,
            point.Low,
            point.High,
            point.IsOutside
        );
}

/// <summary>One batch on a chart of shares.</summary>
/// <param name="Batch">Its number, or its name in old records.</param>
/// <param name="Id">Of a batch of this shop's own records.</param>
/// <param name="Low">Lower limit of the usual range for so many blanks.</param>
public sealed record TrendBatchView(
    string Batch,
    string? Id,
    string? CaneLot,
    DateOnly Date,
    int In,
    int Kept,
    double Low,
    double High,
    bool IsOutside
);
