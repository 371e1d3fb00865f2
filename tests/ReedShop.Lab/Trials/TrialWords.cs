using ReedShop.Planning.Promising;
using static ReedShop.Lab.Trials.TrialReport;

namespace ReedShop.Lab.Trials;

/// <summary>How one way of promising fared, in words.</summary>
/// <param name="shops">Promises of a block, by shop.</param>
/// <param name="results">The shops as a whole.</param>
internal sealed class TrialWords(TrialPromise[][] shops, TrialResult[] results)
{
    private readonly TrialPromise[] all = [.. shops.SelectMany(shop => shop)];

    public string Of(Rule rule) =>
        all.Length == 0
            ? $"{rule.Name}: no promise whose day has come.\n"
            : $"{rule.Name}: {string.Join("\n  ", [Overall(), ByConfidence(), Made(), Late(), Days(), Losses(), Even(), Bench(), Lost(), Waits()])}\n";

    private string Overall()
    {
        var kept = new ShareInterval(all.Count(promise => promise.Kept), all.Length);
        return Text(
            $"{all.Length} promises, kept {Kept(all):0.000} ({kept.Low:0.000} to {kept.High:0.000} if all were independent)"
        );
    }

    private string ByConfidence() =>
        $"by confidence asked: {EachAsked(all, asked => Text($"kept {Kept(asked):0.000}"))}";

    /// <summary>What lies in the drawer is easily promised, and hides how the others fare.</summary>
    private string Made()
    {
        var made = all.Where(promise => !promise.IsFromDrawer).ToArray();
        var each = EachAsked(
            made,
            asked => Text($"recorded {asked.Average(p => p.Chance):0.000} kept {Kept(asked):0.000} ({asked.Length})")
        );
        return Text($"{all.Length - made.Length} lay ready in the drawer; of those to be made: {each}");
    }

    private string Late()
    {
        var late = all.Where(promise => !promise.Kept).ToArray();
        var shortOf = late.Count(promise => promise.CameUpShort);
        var month = shops.Max(MostLateInAMonth);
        return Text(
            $"late {late.Length}, of which {shortOf} had reeds come up short; at most {month} in one month of one shop"
        );
    }

    private string Days()
    {
        var (promised, actual) = (all.Average(p => p.PromisedDays), all.Average(p => p.ActualDays));
        return Text($"promised lead time {promised:0.0} days, actual {actual:0.0}");
    }

    private string Losses()
    {
        var brier = Scores.Brier(all.Select(promise => (promise.Chance, promise.Kept)));
        var pinball = all.Average(promise => Scores.Pinball(promise.PromisedDays, promise.ActualDays, promise.Asked));
        return Text($"Brier score {brier:0.0000}; pinball loss of the lead time {pinball:0.00} days");
    }

    private string Even()
    {
        var bins = Scores.Bins([.. all.Select(promise => promise.Pit)]);
        return $"PIT, of 100 in each tenth: {string.Join(' ', bins.Select(bin => Text($"{100 * bin:0.0}")))}";
    }

    /// <summary>Blanks and evenings are of the whole trial: no blank is of one promise alone.</summary>
    private string Bench()
    {
        var (blanks, reeds) = (results.Sum(shop => shop.BlanksStarted), results.Sum(shop => shop.ReedsSold));
        return Text(
            $"in the whole trial: {(double)blanks / reeds:0.00} blanks started per reed sold, {reeds} reeds sold, {results.Average(shop => shop.EveningsUsed):0} evenings used per shop"
        );
    }

    private string Lost()
    {
        var refused = results.SelectMany(shop => shop.Refused).ToArray();
        var reasons = refused.CountBy(reason => reason).OrderBy(reason => reason.Key);
        var why = string.Join(", ", reasons.Select(reason => Text($"{reason.Key} {reason.Value}")));
        return Text(
            $"no day found for {refused.Length} wishes{(why.Length > 0 ? $" ({why})" : "")}, {results.Sum(shop => shop.Declined)} found theirs too late"
        );
    }

    private string Waits()
    {
        var (orders, trays) = (Mean(shop => shop.Orders), Mean(shop => shop.BenchWaits));
        return Text(
            $"of orders shipped {orders.Inside:0.0} were open at a time, {orders.Time:0.0} days each; {trays.Inside:0.0} trays waited at a time for their evening, {trays.Time:0.0} days each, by plan or for want of minutes"
        );
    }

    /// <summary>Means over shops. The bench serves by plan and not by arrival, so only the measures are those of a queue.</summary>
    private (double Inside, double Time) Mean(Func<TrialResult, IReadOnlyList<Stay>> stays)
    {
        var queues = results.Select(stays).Where(shop => shop.Count > 0).Select(QueueMeasures.Of).ToArray();
        return queues.Length == 0 ? (0, 0) : (queues.Average(q => q.InSystem), queues.Average(q => q.TimeInSystem));
    }

    private static string EachAsked(TrialPromise[] promises, Func<TrialPromise[], string> words) =>
        string.Join(
            ", ",
            promises
                .GroupBy(promise => promise.Asked)
                .OrderBy(asked => asked.Key)
                .Select(asked => Text($"{asked.Key} {words([.. asked])}"))
        );

    private static int MostLateInAMonth(TrialPromise[] shop) =>
        shop.Where(promise => !promise.Kept)
            .CountBy(promise => promise.Month)
            .Select(month => month.Value)
            .DefaultIfEmpty(0)
            .Max();
}
