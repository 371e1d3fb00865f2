using System.Text.Json.Serialization;
using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Shop;
using static ReedShop.Quotes.QuoteTexts;

namespace ReedShop.Quotes;

public sealed record QuoteLine(string Model, Strength Strength, int Quantity);

/// <summary>What a buyer asks.</summary>
/// <param name="Confidence">The chance of keeping the date that is asked for; the shop's own where none is sent.</param>
/// <param name="Neighbours">Half steps either side of each strength that would do as well.</param>
/// <param name="NeedBy">The last day the parcel may leave; after it the reeds are of no use, for a recital perhaps.</param>
/// <param name="PartsAreFine">The buyer takes the reeds in several parcels, as they come.</param>
/// <param name="Country">
/// Where it goes: a name or a code of ISO 3166-1. Needed where the shop has zones for shipping, else of no account.
/// </param>
/// <param name="Voucher">The code of a voucher, in capitals or not.</param>
/// <param name="Draft">Only look: nothing is stored and there is no id to order with.</param>
public sealed record QuoteRequest(
    IReadOnlyList<QuoteLine> Lines,
    double? Confidence = null,
    int Neighbours = 0,
    bool Draft = false,
    DateOnly? NeedBy = null,
    bool PartsAreFine = false,
    string? Country = null,
    string? Voucher = null
);

/// <summary>A request that the shop can answer: known models, offered strengths, each line once, a country it sends to.</summary>
/// <param name="Shipping">Null where it is a part of the reeds' price.</param>
public sealed record ValidRequest(
    IReadOnlyList<PricedLine> Lines,
    double Confidence,
    int Neighbours,
    DateOnly? NeedBy = null,
    bool PartsAreFine = false,
    ShippingOf? Shipping = null,
    VoucherOf? Voucher = null
)
{
    public const int MostLines = 20;
    public const int MostQuantity = 100;
    public const int MostNeighbours = 2;

    [JsonIgnore]
    public OrderPrice Price =>
        new(Lines.Sum(line => line.Quantity * line.UnitPriceMinor), Shipping?.PriceMinor, Voucher?.DiscountMinor ?? 0);

    [JsonIgnore]
    public string? Country => Shipping?.Country;

    /// <summary>The same request with another confidence, as the promiser reads it.</summary>
    public PromiseRequest Ask(double confidence) =>
        new(
            [.. Lines.Select(line => new PromiseLine(line.Model, line.Strength, line.Quantity))],
            confidence,
            Neighbours
        );

    public static Result<ValidRequest> Parse(
        QuoteRequest request,
        double usualConfidence,
        ShippingTerms terms,
        IReadOnlyDictionary<string, ReedModel> models
    )
    {
        var confidence = request.Confidence ?? usualConfidence;
        var fault =
            ListFault(request)
            ?? request.Lines.Select((line, index) => LineFault(line, index, models)).FirstOrDefault(f => f is not null)
            ?? RangeFault(confidence, request.Neighbours);
        return fault is not null
            ? fault
            : ShippingOf
                .Ask(request, terms, models)
                .Then<ValidRequest>(shipping => new ValidRequest(
                    Merged(request, models),
                    confidence,
                    request.Neighbours,
                    request.NeedBy,
                    request.PartsAreFine,
                    shipping
                ));
    }

    /// <summary>The same reed named twice is one line.</summary>
    private static IReadOnlyList<PricedLine> Merged(
        QuoteRequest request,
        IReadOnlyDictionary<string, ReedModel> models
    ) =>
        [
            .. request
                .Lines.GroupBy(line => (line.Model, line.Strength))
                .Select(same => new PricedLine(
                    same.Key.Model,
                    same.Key.Strength,
                    same.Sum(line => line.Quantity),
                    models[same.Key.Model].PriceMinor
                )),
        ];

    private static Refusal? ListFault(QuoteRequest request) =>
        request.Lines.Count is < 1 or > MostLines
            ? Refusal.Invalid("lines", Say["NoLinesOrTooMany"], Say["LinesUpTo", MostLines])
            : null;

    /// <summary>Why a line is not one the shop can answer; its index names it in the refusal.</summary>
    public static Refusal? LineFault(QuoteLine line, int index, IReadOnlyDictionary<string, ReedModel> models)
    {
        var selling = models.Values.Where(model => model.Selling).ToArray();
        if (selling.FirstOrDefault(model => model.Key == line.Model) is not { } model)
        {
            return Refusal.Invalid(
                $"lines[{index}].model",
                Say["NoSuchModel", line.Model],
                string.Join(", ", selling.Select(sold => sold.Key))
            );
        }

        if (!model.Strengths.Contains(line.Strength))
        {
            return Refusal.Invalid(
                $"lines[{index}].strength",
                Say["NotMadeIn", ReadyNames.Said(model.Name), line.Strength],
                string.Join(", ", model.Strengths)
            );
        }

        return line.Quantity is < 1 or > MostQuantity
            ? Refusal.Invalid($"lines[{index}].quantity", Say["QuantityUnusable"], Say["ReedsUpTo", MostQuantity])
            : null;
    }

    private static Refusal? RangeFault(double confidence, int neighbours) =>
        confidence is not (>= ShopView.LeastConfidence and <= ShopView.MostConfidence)
            ? Refusal.Invalid("confidence", Say["ConfidenceUnusable"], Say["ConfidenceFromTo"])
        : neighbours is < 0 or > MostNeighbours
            ? Refusal.Invalid("neighbours", Say["NeighboursUnusable"], Say["HalfStepsUpTo", MostNeighbours])
        : null;
}

/// <summary>A voucher and what it took off when the price was told.</summary>
public sealed record VoucherOf(string Code, long DiscountMinor, DateOnly ToldOn);

public sealed record PricedLine(string Model, Strength Strength, int Quantity, long UnitPriceMinor);
