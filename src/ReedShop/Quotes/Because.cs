using ReedShop.Catalogue;
using ReedShop.Planning.Promising;
using ReedShop.Platform.Layout;
using static ReedShop.Quotes.QuoteTexts;

namespace ReedShop.Quotes;

/// <summary>The reasons for a date, in the words of the trade.</summary>
public static class Because
{
    /// <summary>More days than nights by this much are worth a word.</summary>
    private const int BusyDays = 7;

    public static IReadOnlyList<string> Of(
        ShopState state,
        Promise promise,
        IReadOnlyDictionary<string, ReedModel> models
    ) =>
        [
            .. promise.Lines.Select(line => Line(line, ReadyNames.Of(models, line.Line.Model))),
            .. Nights(state, promise),
            .. Moved(promise),
            Chance(promise),
        ];

    private static string Line(PromisedLine line, string name)
    {
        var drawer = line.FromDrawer.Sum(reeds => reeds.Count);
        var wanted = Say["Wanted", Words.Number(line.Line.Quantity), line.Line.Strength, name];
        var fromDrawer = drawer > 0 ? Say.Count("InDrawer", drawer) : Say["NoneInDrawer"];
        return line switch
        {
            { IsMade: false } => Say.Count("AllInDrawer", line.Line.Quantity, wanted),
            { FromBatch: > 0 } => Say["FromBatch", wanted, fromDrawer, Words.Number(line.FromBatch)],
            _ => Say.Count(
                "Started",
                line.Blanks,
                wanted,
                fromDrawer,
                Words.Number(line.ToMake),
                Words.InHundred(line.Cover)
            ),
        };
    }

    private static IEnumerable<string> Nights(ShopState state, Promise promise)
    {
        var slowest = promise.Lines.MaxBy(line => line.FinishDay)!;
        if (DryingNights(state, slowest) is var nights and > 0)
        {
            var spare = promise.SpareDays == 0 ? Say["NoSpareDay"] : Say.Count("SpareDays", promise.SpareDays);
            var damp = Words.InHundred(state.Hazards.DampAhead(state.Today));
            yield return Say.Count("Nights", nights, spare, damp);
        }

        if (slowest.IsMade && slowest.FinishDay > slowest.Ahead.Nights + BusyDays)
        {
            foreach (var reason in WhyLate(state, promise, slowest))
            {
                yield return reason;
            }
        }
    }

    /// <summary>Those its page will count; none where all lies in the drawer.</summary>
    private static int DryingNights(ShopState state, PromisedLine line)
    {
        var route = state.Models[line.Line.Model].Route;
        return line.New is [var batch, ..] ? route.DryingNights(batch.FirstStep, batch.LastStep)
            : state.Batches.FirstOrDefault(open => open.Root == line.BatchRoot) is { } under
                ? route.DryingNights(under.NextStep, route.Steps.Count)
            : 0;
    }

    /// <summary>What is full on most days before: the evenings, or what lips last for; else nothing that is seen from here.</summary>
    private static IEnumerable<string> WhyLate(ShopState state, Promise promise, PromisedLine slowest)
    {
        var load = new BenchLoad(state);
        var batches = slowest.New.Count > 0 ? slowest.New : promise.Lines.SelectMany(line => line.New);
        var sittings = batches.SelectMany(batch => batch.Sittings).Select(sitting => sitting.Work).ToArray();
        return load.TiringFull(sittings, slowest.FinishDay) is { } step ? [Say["StepIsFull", ReadyNames.Said(step)]]
            : load.EveningsFull(sittings, slowest.FinishDay) ? [Say["EveningsAreFull"]]
            : [];
    }

    private static IEnumerable<string> Moved(Promise promise) =>
        promise.Moved.Days.Count == 0 ? [] : [Say["OtherWorkMoves"]];

    private static string Chance(Promise promise) => Say["KeptTimes", Words.InHundred(promise.Chance)];
}
