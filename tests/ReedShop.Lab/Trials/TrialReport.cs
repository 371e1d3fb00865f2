using System.Globalization;
using System.Text;
using ReedShop.Planning.Promising;

namespace ReedShop.Lab.Trials;

/// <summary>What the trials showed: a table for machines, then words for people.</summary>
internal static class TrialReport
{
    public const string Header = "asked,recorded,kept,promises,low,high";

    private const int YearDays = 365;

    public static string Of(TrialPlan plan, IReadOnlyList<Rule> rules, TrialResult[][] results)
    {
        var first = Block(plan, rules, results, "the first year", promise => promise.OrderedOn < YearDays);
        return plan.Years < 2
            ? first
            : first
                + "\n"
                + Block(plan, rules, results, "after a year of warm-up", promise => promise.OrderedOn >= YearDays);
    }

    public static string Csv(IReadOnlyList<TrialPromise[]> shops, int seed)
    {
        var rows = Demand.Confidences.Select(asked =>
        {
            var own = shops.Select(shop => shop.Where(promise => promise.Asked == asked).ToArray()).ToArray();
            var all = own.SelectMany(shop => shop).ToArray();
            var (low, high) = Bootstrap.OfDifference(own, (ulong)seed);
            return all.Length == 0
                ? Text($"{asked},,,0,,")
                : Text(
                    $"{asked},{all.Average(p => p.Chance):0.0000},{Kept(all):0.0000},{all.Length},{low:0.0000},{high:0.0000}"
                );
        });
        return $"{Header}\n{string.Join('\n', rows)}\n";
    }

    /// <summary>Of all promises of the program whose day has come.</summary>
    public static string Diagram(TrialResult[] results)
    {
        var points = results
            .SelectMany(shop => shop.Promises)
            .GroupBy(promise => promise.Asked)
            .Select(group =>
            {
                var kept = new ShareInterval(group.Count(promise => promise.Kept), group.Count());
                return (group.Average(promise => promise.Chance), Kept(group), kept.Low, kept.High);
            });
        return ReliabilityDiagram.Svg(points, Text($"Promises kept, {results.Length} invented shops"));
    }

    private static string Block(
        TrialPlan plan,
        IReadOnlyList<Rule> rules,
        TrialResult[][] results,
        string when,
        Func<TrialPromise, bool> isOfBlock
    )
    {
        var shops = results
            .Select(rule => rule.Select(shop => shop.Promises.Where(isOfBlock).ToArray()).ToArray())
            .ToArray();
        var text = new StringBuilder(Csv(shops[0], plan.Seed)).Append('\n');
        text.Append(
            Text(
                $"Promises of {when}, {results[0].Length} shops. low and high: 90 % interval of kept less recorded. Rules of thumb state no chance: what was asked stands for it.\n"
            )
        );
        for (var rule = 0; rule < rules.Count; rule++)
        {
            text.Append('\n').Append(new TrialWords(shops[rule], results[rule]).Of(rules[rule]));
        }

        return text.ToString();
    }

    public static double Kept(IEnumerable<TrialPromise> promises) =>
        promises.Average(promise => promise.Kept ? 1.0 : 0);

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
