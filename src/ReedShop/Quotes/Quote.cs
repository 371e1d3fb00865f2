using ReedShop.Planning.Promising;
using ReedShop.Platform.Http;

namespace ReedShop.Quotes;

/// <summary>What a buyer was told. It holds no evenings: only accepting it does.</summary>
public sealed class Quote
{
    public required string Id { get; init; }

    public required ValidRequest Request { get; init; }

    public required long PriceMinor { get; init; }

    public required string Currency { get; init; }

    public required DateOnly ShipBy { get; init; }

    /// <summary>Chance of shipping by then that was stated.</summary>
    public required double Chance { get; init; }

    public required DateTime MadeUtc { get; init; }

    public required DateTime ValidUntilUtc { get; init; }

    public required long FactsVersion { get; init; }
}

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

/// <param name="Id">Missing for a draft.</param>
/// <param name="Confidence">The chance that was asked for.</param>
/// <param name="Chance">The chance of shipping by then.</param>
/// <param name="Because">The reasons for the date, in plain words.</param>
public sealed record QuoteView(
    string? Id,
    DateOnly ShipBy,
    double Confidence,
    double Chance,
    Money Price,
    DateTime ValidUntil,
    IReadOnlyList<QuoteLineView> Lines,
    IReadOnlyList<string> Because,
    IReadOnlyList<SoonerView> Sooner
);
