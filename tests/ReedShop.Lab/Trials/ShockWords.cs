using static ReedShop.Lab.Trials.TrialReport;

namespace ReedShop.Lab.Trials;

/// <summary>How far kept promises fell, and how soon they came back, in words.</summary>
internal static class ShockWords
{
    /// <summary>Kept is back when it is within so much of what it would have been. A choice of ours.</summary>
    private const double Back = 0.02;

    public static IEnumerable<string> Of(IReadOnlyList<ShockSpan> spans)
    {
        var telling = spans.Where(span => !span.SaysLittle).ToArray();
        if (telling.Length == 0)
        {
            return
            [
                Text($"no {spans[0].Kind.Name} has {ShockSpan.FewPromises} promises: too few shops to say anything"),
            ];
        }

        var lowest = telling.MaxBy(span => span.Fall)!;
        string[] words = lowest.Fall > Back ? [Lowest(lowest), Recovery(lowest, telling)] : [Unmoved(lowest)];
        return telling.Length == spans.Count ? words : [.. words, TooFew(spans)];
    }

    private static string Lowest(ShockSpan span) =>
        Text(
            $"lowest beside the run without it: {span.Kind.Name} {span.Number}, {100 * span.Fall:0.0} points ({Points(span.Interval)})"
        );

    private static string Unmoved(ShockSpan span) =>
        Text(
            $"no {span.Kind.Name} fell more than {100 * Back:0} points; most in {span.Kind.Name} {span.Number}, {100 * span.Fall:0.0} points"
        );

    private static string Recovery(ShockSpan lowest, ShockSpan[] telling)
    {
        var after = telling.Where(span => span.Number > lowest.Number).ToArray();
        if (after.FirstOrDefault(span => span.Fall <= Back) is not { } back)
        {
            return Text($"not back within {100 * Back:0} points in any telling {lowest.Kind.Name} after it");
        }

        var again = after.Where(span => span.Number > back.Number && span.Fall > Back).ToArray();
        var stays =
            again.Length == 0
                ? "and stays"
                : $"but not in {back.Kind.Name} {string.Join(", ", again.Select(span => span.Number))}";
        return Text($"back within {100 * Back:0} points in {back.Kind.Name} {back.Number}, {stays}");
    }

    private static string TooFew(IReadOnlyList<ShockSpan> spans)
    {
        var few = spans.Where(span => span.SaysLittle).Select(span => span.Number);
        return Text(
            $"fewer than {ShockSpan.FewPromises} promises, so that it says little and is passed over: {spans[0].Kind.Name} {string.Join(", ", few)}"
        );
    }

    private static string Points((double Low, double High) change) =>
        Text($"90 % interval {-100 * change.High:0.0} to {-100 * change.Low:0.0}");
}
