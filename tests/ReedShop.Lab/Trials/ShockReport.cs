using System.Text;
using static ReedShop.Lab.Trials.TrialReport;

namespace ReedShop.Lab.Trials;

/// <summary>
/// What a shock did to promises, by the month and the quarter in which their promised day falls: grouped by the day they
/// were given, the last months would hold only those whose day came soon.
/// </summary>
internal static class ShockReport
{
    public const string Header = "recorded,kept,without,low,high,promises,promises without";

    public static string Of(TrialPlan plan, IReadOnlyList<Shock> shocks, TrialResult[][] results)
    {
        var text = new StringBuilder(
            Text(
                $"{results[0].Length} shops, the program alone. Months are {SpanKind.Month.Days} days and quarters {SpanKind.Quarter.Days}, counted from the shock, by the promised day. low and high: 90 % interval of kept less kept without the shock.\n"
            )
        );
        foreach (var (number, shock) in shocks.Index())
        {
            text.Append('\n').Append(Of(plan, shock, results[number + 1], results[0]));
        }

        return text.ToString();
    }

    private static string Of(TrialPlan plan, Shock shock, TrialResult[] shops, TrialResult[] without)
    {
        string[] words =
        [
            .. Spans(SpanKind.Month),
            .. Spans(SpanKind.Quarter),
            Given("before it", shops, without, shock, int.MinValue, shock.Day),
            Given("in the three months after", shops, without, shock, shock.Day, shock.Day + SpanKind.Quarter.Days),
            Given("later", shops, without, shock, shock.Day + SpanKind.Quarter.Days, int.MaxValue),
            Lost(shops, without),
        ];
        return $"{shock.Name}, from day {shock.Day} on\n{string.Join('\n', words)}\n";

        IEnumerable<string> Spans(SpanKind kind)
        {
            var spans = ShockSpan.Of(plan, shock, kind, shops, without);
            return [$"{kind.Name},{Header}", .. spans.Select(span => span.Row), "", .. ShockWords.Of(spans), ""];
        }
    }

    /// <summary>Of those whose promised day comes after the shock.</summary>
    private static string Given(
        string when,
        TrialResult[] shops,
        TrialResult[] without,
        Shock shock,
        int from,
        int before
    )
    {
        var (own, others) = (Chosen(shops), Chosen(without));
        return own.Length == 0 || others.Length == 0
            ? $"no promise given {when}"
            : Text($"given {when}: {Told(own)}; without {Told(others)}");

        TrialPromise[] Chosen(TrialResult[] run) =>
            [
                .. run.SelectMany(shop => shop.Promises)
                    .Where(promise => promise.PromisedDay >= shock.Day)
                    .Where(promise => promise.OrderedOn >= from && promise.OrderedOn < before),
            ];
    }

    private static string Told(TrialPromise[] promises) =>
        Text(
            $"recorded {promises.Average(p => p.Chance):0.000} kept {Kept(promises):0.000} ({promises.Length}), lead time promised {promises.Average(p => p.PromisedDays):0.0} days, actual {promises.Average(p => p.ActualDays):0.0}"
        );

    /// <summary>Until the shock both runs are one, so that they differ by what came after.</summary>
    private static string Lost(TrialResult[] shops, TrialResult[] without)
    {
        return $"in the whole trial: {Sums(shops)}; without {Sums(without)}";

        static string Sums(TrialResult[] run) =>
            Text(
                $"no day found for {run.Sum(shop => shop.Refused.Count)} wishes, {run.Sum(shop => shop.Declined)} found theirs too late, {run.Sum(shop => shop.ReedsSold)} reeds sold of {run.Sum(shop => shop.BlanksStarted)} blanks started"
            );
    }
}
