using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Shop;
using static ReedShop.Orders.LetterTexts;

namespace ReedShop.Orders;

/// <summary>
/// What buyers are told about their order, in plain text and in the language the order was placed in, with the days,
/// numbers and money of its country.
/// </summary>
/// <param name="models">Of the catalogue, for the names of what was ordered.</param>
public sealed class OrderMessages(ShopSettings shop, IReadOnlyDictionary<string, ReedModel> models)
{
    /// <summary>Asks for the rest of the price, and says that the reeds lie ready.</summary>
    public const string BalanceWanted = "balance-wanted";

    /// <summary>Kinds of letters that go to the buyer of an order, and are shown on its page.</summary>
    public static IReadOnlyCollection<string> ToBuyers { get; } =
    [
        "order-confirmed",
        "date-moved",
        "strength-asked",
        "order-ready",
        "part-shipped",
        "order-shipped",
        "order-cancelled",
        "exchange-answered",
        "payment-wanted",
        "payment-expired",
        "paid-too-late",
        BalanceWanted,
        "refunded",
    ];

    /// <param name="page">Address of the order's own page, the only key the buyer has.</param>
    /// <param name="paid">
    /// What is said of a payment that came in, in the language of the order; null if an invoice comes with the parcel.
    /// </param>
    public (string Title, string Text) Confirmed(Order order, string page, string? paid = null) =>
        Letter(
            order,
            () => Say["Confirmed.title", order.Number, shop.Name, Words.FullDay(order.ShipBy)],
            () =>
                [
                    $"{Say["Confirmed.thanks", order.Number]}\n{Lines(order)}",
                    string.Join(
                        ' ',
                        [
                            Say["Confirmed.price", Said(order.PriceMinor, order)],
                            .. Parts(order),
                            .. paid is null ? Array.Empty<string>() : [paid],
                        ]
                    ),
                    Say[order.PartsAreFine ? "Confirmed.parts" : "Confirmed.whole", Words.FullDay(order.ShipBy)]
                        + $" {Say["Confirmed.kept", Words.InHundred(order.Chance)]}",
                    (paid is null && order.PriceMinor > 0 ? $"{Say["Confirmed.invoice"]} " : "")
                        + $"{Say["Confirmed.page"]}\n{page}",
                ]
        );

    /// <param name="isForced">The old day could hardly be kept; otherwise the maker chose another.</param>
    /// <param name="note">What the maker wants to say besides.</param>
    /// <param name="page">Where the buyer answers.</param>
    public (string Title, string Text) Moved(Order order, DateOnly from, bool isForced, string? note, string page) =>
        Letter(
            order,
            () => Say["Moved.title", order.Number, shop.Name, Words.FullDay(order.ShipBy), Words.FullDay(from)],
            () =>
                [
                    Say["Moved.from", order.Number, Words.FullDay(from)]
                        + $" {Say[order.ShipBy < from ? "Moved.sooner" : isForced ? "Moved.forced" : "Moved.chosen"]}",
                    Say["Moved.to", Words.FullDay(order.ShipBy), Words.InHundred(order.Chance)]
                        + (
                            order.NeedBy < order.ShipBy
                                ? $" {Say["Moved.afterNeed", Words.Day(order.NeedBy.Value)]}"
                                : ""
                        ),
                    note,
                    $"{Say[order.Parcels.Count == 0 ? "Moved.may" : "Moved.mayTheRest"]}\n{page}",
                ]
        );

    /// <param name="page">Where the buyer answers.</param>
    public (string Title, string Text) StrengthAsked(Order order, OrderLine line, string page) =>
        Letter(
            order,
            () => Say["Asked.title", order.Number, shop.Name, line.Asked!],
            () =>
                [
                    $"{Say["Asked.why", order.Number, Words.FullDay(order.ShipBy), Words.Number(line.Quantity), line.Strength, NameOf(line.Model), line.Asked!]}\n{page}",
                ]
        );

    /// <param name="today">From the promised day on it leaves with the next parcel.</param>
    /// <param name="page">Address of the order's own page.</param>
    public (string Title, string Text) Ready(Order order, DateOnly today, string page) =>
        Letter(
            order,
            () => Say["Ready.title", order.Number, shop.Name],
            () =>
                [
                    $"{Say["Ready.are", order.Number]}\n{Lines(order)}",
                    today < order.ShipBy ? Say["Ready.leave", Words.FullDay(order.ShipBy)] : Say["Ready.next"],
                    $"{Say["Confirmed.page"]}\n{page}",
                ]
        );

    public (string Title, string Text) PartShipped(Order order) =>
        Letter(
            order,
            () => Say["Part.title", order.Number, shop.Name],
            () =>
                [
                    $"{Say["Part.left", order.Number, Words.FullDay(order.Parcels[^1].ShippedOn)]}\n{Sent(order.Parcels[^1])}",
                    Tracking(order.Parcels[^1].Tracking),
                    Say["Part.rest", Words.FullDay(order.ShipBy)],
                ]
        );

    public (string Title, string Text) Shipped(Order order) =>
        Letter(
            order,
            () => Say["Shipped.title", order.Number, shop.Name],
            () =>
                [
                    $"{Say["Shipped.left", order.Number, Words.FullDay(order.ShippedOn!.Value)]}\n{Lines(order)}",
                    Tracking(order.Tracking),
                    Say["Shipped.care"],
                ]
        );

    public (string Title, string Text) Cancelled(Order order) =>
        Letter(
            order,
            () => Say["Cancelled.title", order.Number, shop.Name],
            () => [$"{Say["Cancelled.is", order.Number]} {Say[$"Cancelled.{LeftOver(order)}"]}"]
        );

    /// <param name="page">Where the answer is shown as well.</param>
    public (string Title, string Text) ExchangeAnswered(Order order, StrengthExchange exchange, string page) =>
        Letter(
            order,
            () => Say["Exchange.title", order.Number, shop.Name],
            () =>
                [
                    Say[
                        "Exchange.wish",
                        Words.Number(exchange.Quantity),
                        exchange.Strength,
                        NameOf(exchange.Model),
                        exchange.To
                    ],
                    $"{Say[exchange.IsAgreed ? "Exchange.yes" : "Exchange.no"]} {exchange.Answer}",
                    exchange.IsAgreed ? Say["Exchange.unopened"] : null,
                    $"{Say["Exchange.page"]}\n{page}",
                ]
        );

    private (string Title, string Text) Letter(Order order, Func<string> title, Func<string?[]> paragraphs) =>
        BuyersLetter.Of(order, shop, title, paragraphs);

    private static string LeftOver(Order order) =>
        order.Parcels.Count == 0 ? "nothing"
        : order.PaidUtc is null ? "rest"
        : "restPaid";

    private static string? Tracking(string? tracking) => tracking is null ? null : Say["Tracking", tracking];

    private static IEnumerable<string> Parts(Order order)
    {
        if (order.ShippingMinor is { } shipping)
        {
            yield return Say["Confirmed.shipping", Said(shipping, order)];
        }

        if (order.Voucher is { } voucher)
        {
            yield return Say["Confirmed.voucher", voucher, Said(order.DiscountMinor, order)];
        }

        if (order.PriceMinor == 0)
        {
            yield return Say["Confirmed.free"];
        }
    }

    private static string Said(long minor, Order order) => Words.Money(new Money(minor, order.Currency));

    private string Lines(Order order) =>
        string.Join(
            '\n',
            order
                .Lines.OrderBy(line => line.Position)
                .Select(line => Reeds(line.Quantity, line.Strength, line.Model) + Either(order))
        );

    private string Sent(SentParcel parcel) =>
        string.Join('\n', parcel.Reeds.Select(reeds => Reeds(reeds.Quantity, reeds.Strength, reeds.Model)));

    private string Reeds(int quantity, Strength strength, string model) =>
        $"  {Say["Line", Words.Number(quantity), strength, NameOf(model)]}";

    private string NameOf(string model) => ReadyNames.Of(models, model);

    private static string Either(Order order) =>
        order.Neighbours switch
        {
            0 => "",
            1 => $", {Say["HalfEitherSide"]}",
            _ => $", {Say["WholeEitherSide"]}",
        };
}
