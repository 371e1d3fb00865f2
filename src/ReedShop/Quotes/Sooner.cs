using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform.Layout;
using static ReedShop.Quotes.QuoteTexts;

namespace ReedShop.Quotes;

/// <summary>Changes to a request that would ship sooner, each with its own date.</summary>
public static class Sooner
{
    private const double BolderConfidence = 0.75;

    public static IReadOnlyList<SoonerView> Than(ShopState state, ValidRequest request, Promise promise) =>
        [
            .. Changes(request, promise)
                .Select(change => (change.Words, Date: ShipBy(state, change.Request)))
                .Where(change => change.Date < promise.ShipBy)
                .Select(change => new SoonerView(change.Words, change.Date!.Value))
                .DistinctBy(view => view.Change),
        ];

    private static DateOnly? ShipBy(ShopState state, PromiseRequest request) =>
        ForecastPromiser.PromiseAmongStanding(state, request).Promise?.ShipBy;

    private static IEnumerable<(string Words, PromiseRequest Request)> Changes(ValidRequest request, Promise promise)
    {
        var asked = request.Ask(request.Confidence);
        if (request.Neighbours == 0)
        {
            yield return (Say["Sooner.neighbours"], asked with { Neighbours = 1 });
        }

        var inDrawer = promise.Lines.Where(line => line.FromDrawer.Count > 0).Select(FromDrawer).ToArray();
        if (inDrawer.Length > 0 && promise.Lines.Any(line => line.IsMade))
        {
            if (!request.PartsAreFine && request.NeedBy is null)
            {
                yield return (Say["Sooner.parcels", Words.DayToSend(promise.ShipBy)], asked with { Lines = inDrawer });
            }

            yield return (Say["Sooner.drawer"], asked with { Lines = inDrawer });
        }

        if (request.Lines.Any(line => line.Quantity > 1))
        {
            yield return (Say["Sooner.half"], asked with { Lines = [.. asked.Lines.Select(Half)] });
        }

        if (request.Confidence > BolderConfidence)
        {
            yield return (
                Say["Sooner.bolder", Words.InHundred(BolderConfidence)],
                asked with
                {
                    Confidence = BolderConfidence,
                }
            );
        }
    }

    private static PromiseLine FromDrawer(PromisedLine line) =>
        line.Line with
        {
            Quantity = line.FromDrawer.Sum(reeds => reeds.Count),
        };

    private static PromiseLine Half(PromiseLine line) => line with { Quantity = (line.Quantity + 1) / 2 };
}
