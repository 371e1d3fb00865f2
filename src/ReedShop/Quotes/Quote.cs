using ReedShop.Orders;
using ReedShop.Planning.Promising;
using ReedShop.Platform.Http;

namespace ReedShop.Quotes;

/// <summary>What a buyer was told. It holds no evenings: only accepting it does.</summary>
public sealed class Quote
{
    public required string Id { get; init; }

    public required ValidRequest Request { get; init; }

    /// <summary>It holds as it was told, whatever the owner changes meanwhile.</summary>
    public OrderPrice Price => Request.Price;

    public required string Currency { get; init; }

    public required DateOnly ShipBy { get; init; }

    /// <summary>Chance of shipping by then that was stated.</summary>
    public required double Chance { get; init; }

    public required DateTime MadeUtc { get; init; }

    public required DateTime ValidUntilUtc { get; init; }

    public required long FactsVersion { get; init; }

    /// <summary>What was told with the date.</summary>
    public required QuoteReasons Reasons { get; init; }
}

/// <summary>What a buyer is told with a date, as it was worked out when the quote was made.</summary>
/// <param name="Language">Of the reasons and the changes, such as "de-DE".</param>
public sealed record QuoteReasons(
    string Language,
    IReadOnlyList<string> Because,
    IReadOnlyList<SoonerView> Sooner,
    IReadOnlyList<ParcelView>? Parcels,
    NeedByView? NeedBy
);

/// <summary>How one line is served: from the drawer, from reeds that are being made, or from blanks to be started.</summary>
public sealed record QuoteLineView(
    string Model,
    Planning.Strength Strength,
    int Quantity,
    int FromDrawer,
    int FromBench,
    int ToMake,
    int Blanks
)
{
    public static QuoteLineView Of(PromisedLine line) =>
        new(
            line.Line.Model,
            line.Line.Strength,
            line.Line.Quantity,
            line.FromDrawer.Sum(reeds => reeds.Count),
            line.FromBatch,
            line.ToMake,
            line.Blanks
        );
}

/// <summary>What would ship sooner.</summary>
public sealed record SoonerView(string Change, DateOnly ShipBy);

/// <summary>One parcel of an order, with its own day.</summary>
/// <param name="Chance">Of leaving by then.</param>
public sealed record ParcelView(IReadOnlyList<QuoteLine> Lines, DateOnly ShipBy, double Chance);

/// <summary>What there is to say about a day after which the reeds are of no use.</summary>
/// <param name="Chance">Of leaving by then.</param>
/// <param name="LatestOrder">The last day on which the same could still be ordered in time, if nobody else orders before.</param>
public sealed record NeedByView(DateOnly Date, double Chance, DateOnly LatestOrder);

/// <param name="Id">Missing for a draft.</param>
/// <param name="Price">All that is to be paid.</param>
/// <param name="Parts">What it is made of.</param>
/// <param name="Country">Where shipping is paid to, by its code of ISO 3166-1; missing where it is a part of the reeds' price.</param>
/// <param name="Confidence">The chance that was asked for.</param>
/// <param name="Chance">The chance of shipping by then.</param>
/// <param name="Because">The reasons for the date, in plain words.</param>
/// <param name="Parcels">The parcels where there are several, the last of which leaves by <paramref name="ShipBy"/>; missing where all leaves in one.</param>
/// <param name="NeedBy">Only where a last day was sent.</param>
public sealed record QuoteView(
    string? Id,
    DateOnly ShipBy,
    double Confidence,
    double Chance,
    Money Price,
    DateTime ValidUntil,
    IReadOnlyList<QuoteLineView> Lines,
    IReadOnlyList<string> Because,
    IReadOnlyList<SoonerView> Sooner,
    IReadOnlyList<ParcelView>? Parcels = null,
    NeedByView? NeedBy = null,
    PriceParts? Parts = null,
    string? Country = null
);
