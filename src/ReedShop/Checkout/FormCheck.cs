using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Quotes;
using ReedShop.Shop;

namespace ReedShop.Checkout;

/// <summary>Something wrong with a field of the order form.</summary>
/// <param name="Id">Of the field on the page.</param>
public sealed record FieldFault(string Id, Refusal Refusal);

/// <summary>
/// All that is wrong with the order form as it stands, by the rules an order is refused by. It asks what costs nothing to
/// know; whether a date can be promised is the quote's to say.
/// </summary>
public sealed class FormCheck(CatalogueStore catalogue, ShopStore shops)
{
    public async Task<IReadOnlyList<FieldFault>> Of(OrderForm typed, CancellationToken cancel)
    {
        var models = (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);
        var terms = (await shops.Find(cancel))?.Shipping ?? ShippingTerms.None;
        return
        [
            .. typed
                .Lines.Select((line, index) => Fault(line, index, models))
                .OfType<Refusal>()
                .Concat(BuyerFaults(typed, terms))
                .Select(fault => new FieldFault(Id(fault.Field!), fault)),
        ];
    }

    /// <summary>Where shipping has zones, the country is chosen among theirs.</summary>
    private static IEnumerable<Refusal> BuyerFaults(OrderForm typed, ShippingTerms terms) =>
        !terms.AreSet
            ? typed.ToWish().Faults()
            : typed
                .ToWish()
                .Faults()
                .Where(fault => fault.Field != "address.country")
                .Concat(ShippingOf.CountryFault(typed.Country, terms) is { } fault ? [fault] : []);

    /// <summary>"email" of "buyer.email", "quantity-0" of "lines[0].quantity".</summary>
    public static string Id(string field) =>
        field.Split('[', ']', '.') is ["lines", var index, "", var part] ? $"{part}-{index}" : field.Split('.')[^1];

    /// <summary>A line without a number is taken off, so nothing is wrong with it.</summary>
    private static Refusal? Fault(TypedLine typed, int index, IReadOnlyDictionary<string, ReedModel> models) =>
        typed.Quantity.Length == 0
            ? null
            : Sampler
                .Lines(typed)
                .Select(line => OrderForm.ToLine(line, index))
                .Select(line => line.Refusal ?? ValidRequest.LineFault(line.Value, index, models))
                .FirstOrDefault(fault => fault is not null);
}
