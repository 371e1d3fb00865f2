using ReedShop.Planning.Promising;

namespace ReedShop.Quotes;

/// <summary>The parcels of a promise: what lies in the drawer may go ahead where the buyer said that part is fine.</summary>
public static class Parcels
{
    /// <summary>Null where all leaves in one.</summary>
    public static IReadOnlyList<ParcelView>? Of(ShopState state, ValidRequest request, Promise promise)
    {
        var ready = promise
            .Lines.SelectMany(line =>
                line.FromDrawer.Select(reeds => new QuoteLine(line.Line.Model, reeds.Strength, reeds.Count))
            )
            .ToArray();
        var first = state.Ships.FirstAfter(state.Today);
        var toMake = promise.Lines.Where(line => line.IsMade).ToArray();
        return request.PartsAreFine && ready.Length > 0 && toMake.Length > 0 && first < promise.ShipBy
            ?
            [
                new ParcelView(ready, first!.Value, DueDay.MostChance),
                new ParcelView([.. toMake.Select(Rest)], promise.ShipBy, promise.Chance),
            ]
            : null;
    }

    private static QuoteLine Rest(PromisedLine line) =>
        new(line.Line.Model, line.Line.Strength, line.Line.Quantity - line.FromDrawer.Sum(reeds => reeds.Count));
}
