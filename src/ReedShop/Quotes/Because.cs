using ReedShop.Planning.Promising;

namespace ReedShop.Quotes;

/// <summary>The reasons for a date, in the words of the trade.</summary>
public static class Because
{
    /// <summary>More days than nights by this much are worth a word.</summary>
    private const int BusyDays = 7;

    public static IReadOnlyList<string> Of(ShopState state, Promise promise) =>
        [.. promise.Lines.Select(Line), .. Nights(state, promise), .. Moved(promise), Chance(promise)];

    private static string Line(PromisedLine line)
    {
        var drawer = line.FromDrawer.Sum(reeds => reeds.Count);
        var wanted = $"{line.Line.Quantity} of {line.Line.Strength} ({line.Line.Model})";
        var fromDrawer = drawer > 0 ? $"{drawer} lie in the drawer" : "none in the drawer";
        return line switch
        {
            { IsMade: false } => $"{wanted}: all lie in the drawer.",
            { FromBatch: > 0 } => $"{wanted}: {fromDrawer}; {line.FromBatch} from a batch under way.",
            _ => FormattableString.Invariant(
                $"{wanted}: {fromDrawer}; {line.Blanks} blanks are started for {line.ToMake}, which gives enough about {Rate(line.Cover)} times in 100."
            ),
        };
    }

    private static IEnumerable<string> Nights(ShopState state, Promise promise)
    {
        var slowest = promise.Lines.MaxBy(line => line.FinishDay)!;
        if (slowest is { IsMade: true, Ahead.Nights: > 0 })
        {
            var spare = promise.SpareDays switch
            {
                0 => "no bench day is kept spare",
                1 => "one bench day is kept spare",
                _ => $"{promise.SpareDays} bench days are kept spare",
            };
            yield return FormattableString.Invariant(
                $"Between its sittings lie {slowest.Ahead.Nights} nights at least; {spare}, as about {Rate(state.Hazards.DampAhead(state.Today))} nights in 100 leave the blanks damp."
            );
        }

        if (slowest.IsMade && slowest.FinishDay > slowest.Ahead.Nights + BusyDays)
        {
            foreach (var reason in WhyLate(state, promise, slowest))
            {
                yield return reason;
            }
        }
    }

    /// <summary>What is full on most days before: the evenings, or what lips last for; else nothing that is seen from here.</summary>
    private static IEnumerable<string> WhyLate(ShopState state, Promise promise, PromisedLine slowest)
    {
        var load = new BenchLoad(state);
        var batches = slowest.New.Count > 0 ? slowest.New : promise.Lines.SelectMany(line => line.New);
        var sittings = batches.SelectMany(batch => batch.Sittings).Select(sitting => sitting.Work).ToArray();
        return load.TiringFull(sittings, slowest.FinishDay) is { } step
                ? [$"On most days before that, “{step}” has all the blanks a day may see."]
            : load.EveningsFull(sittings, slowest.FinishDay)
                ? ["Most evenings before that are taken by earlier orders, or the bench is closed."]
            : [];
    }

    private static IEnumerable<string> Moved(Promise promise) =>
        promise.Moved.Days.Count == 0
            ? []
            : ["For this date other work moves to other evenings, as far as the dates already promised allow."];

    private static string Chance(Promise promise) =>
        FormattableString.Invariant(
            $"Kept about {Rate(promise.Chance)} times in 100; this is an estimate from past batches, not a certainty."
        );

    private static int Rate(double chance) => (int)Math.Floor(chance * 100);
}
