using System.Globalization;
using System.Text;

namespace ReedShop.Lab.Trials;

/// <summary>What the trials showed: a table for machines, then words.</summary>
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
                var (low, high) = Scores.Wilson(group.Count(promise => promise.Kept), group.Count());
                return (group.Average(promise => promise.Chance), Kept(group), low, high);
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
            Text($"Promises of {when}, {plan.Shops} shops. low and high: 90 % interval of kept less recorded.\n")
        );
        for (var rule = 0; rule < rules.Count; rule++)
        {
            text.Append('\n').Append(Words(rules[rule], shops[rule], results[rule]));
        }

        return text.ToString();
    }

    private static string Words(Rule rule, TrialPromise[][] shops, TrialResult[] results)
    {
        var all = shops.SelectMany(shop => shop).ToArray();
        if (all.Length == 0)
        {
            return $"{rule.Name}: no promise whose day has come.\n";
        }

        var (low, high) = Scores.Wilson(all.Count(promise => promise.Kept), all.Length);
        var bins = Scores.Bins([.. all.Select(promise => promise.Pit)]);
        return Text(
            $"""
            {rule.Name}: {all.Length} promises, kept {Kept(
                all
            ):0.000} ({low:0.000} to {high:0.000} if all were independent)
              by confidence asked: {string.Join(
                ", ",
                all.GroupBy(p => p.Asked).OrderBy(g => g.Key).Select(g => Text($"{g.Key} kept {Kept(g):0.000}"))
            )}
              Brier score {Scores.Brier(all.Select(p => (p.Chance, p.Kept))):0.0000}; pinball loss {all.Average(p =>
                Scores.Pinball(p.PromisedDays, p.ActualDays, p.Asked)
            ):0.00} days
              PIT, of 100 in each tenth: {string.Join(' ', bins.Select(bin => Text($"{100 * bin:0.0}")))}
              most promises late in one month of one shop: {shops.Max(MostLate)}
              {all.Count(p => p.IsFromDrawer)} lay ready in the drawer; of those to be made: {Made(all)}
              late {all.Count(p => !p.Kept)}, of which {all.Count(p => !p.Kept && p.CameUpShort)} had reeds come up short
              promised lead time {all.Average(p => p.PromisedDays):0.0} days, actual {all.Average(p =>
                p.ActualDays
            ):0.0}
            {Bench(results)}

            """
        );
    }

    /// <summary>What lies in the drawer is easily promised, and hides how the others fare.</summary>
    private static string Made(TrialPromise[] promises) =>
        string.Join(
            ", ",
            promises
                .Where(promise => !promise.IsFromDrawer)
                .GroupBy(promise => promise.Asked)
                .OrderBy(group => group.Key)
                .Select(group =>
                    Text(
                        $"{group.Key} recorded {group.Average(p => p.Chance):0.000} kept {Kept(group):0.000} ({group.Count()})"
                    )
                )
        );

    /// <summary>Blanks and evenings are of the whole trial: no blank is of one promise alone.</summary>
    private static string Bench(TrialResult[] results)
    {
        var orders = Mean(results, shop => shop.Orders);
        var bench = Mean(results, shop => shop.BenchWaits);
        return Text(
            $"""
              in the whole trial: {results.Sum(r => r.BlanksStarted)
                / (double)results.Sum(r => r.ReedsSold):0.00} blanks started per reed sold, {results.Sum(r =>
                r.ReedsSold
            )} reeds sold, {results.Average(r => r.EveningsUsed):0} evenings used per shop
              refused {results.Sum(r => r.Refused)}, declined by the buyer {results.Sum(r =>
                r.Declined
            )}; of shipped orders {orders.Inside:0.0} at a time, {orders.Time:0.0} days each
              dry trays waiting for their evening: {bench.Inside:0.0} at a time, {bench.Time:0.0} days each, by plan or for want of minutes
            """
        );
    }

    /// <summary>Means over shops. The bench serves by plan and not by arrival, so only the measures are those of a queue.</summary>
    private static (double Inside, double Time) Mean(
        TrialResult[] results,
        Func<TrialResult, IReadOnlyList<Stay>> stays
    )
    {
        var queues = results.Select(stays).Where(shop => shop.Count > 0).Select(QueueMeasures.Of).ToArray();
        return queues.Length == 0
            ? (0, 0)
            : (queues.Average(queue => queue.InSystem), queues.Average(queue => queue.TimeInSystem));
    }

    private static double Kept(IEnumerable<TrialPromise> promises) =>
        promises.Average(promise => promise.Kept ? 1.0 : 0);

    private static int MostLate(TrialPromise[] shop) =>
        shop.Where(promise => !promise.Kept)
            .CountBy(promise => promise.Month)
            .Select(month => month.Value)
            .DefaultIfEmpty(0)
            .Max();

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
