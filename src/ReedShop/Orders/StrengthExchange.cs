using ReedShop.Planning;

namespace ReedShop.Orders;

/// <summary>Where a wish to exchange stands. <see cref="ExchangeMoves"/> lists the allowed moves.</summary>
public enum ExchangeStage
{
    Asked,
    Agreed,
    Declined,
}

public enum ExchangeMove
{
    Agree,
    Decline,
}

/// <summary>The table of allowed moves, read by the code and shown in the docs.</summary>
public static class ExchangeMoves
{
    public static IReadOnlyList<(ExchangeMove Move, ExchangeStage From, ExchangeStage To)> All { get; } =
    [
        (ExchangeMove.Agree, ExchangeStage.Asked, ExchangeStage.Agreed),
        (ExchangeMove.Decline, ExchangeStage.Asked, ExchangeStage.Declined),
    ];

    public static ExchangeStage? To(ExchangeMove move, ExchangeStage from) =>
        All.Where(row => row.Move == move && row.From == from).Select(row => (ExchangeStage?)row.To).SingleOrDefault();
}

/// <summary>
/// A buyer's wish to send unopened reeds back for another strength, and the maker's answer. What comes back is booked
/// by the maker in the drawer: a returned, opened reed is never sold again.
/// </summary>
public sealed class StrengthExchange
{
    /// <summary>From 1, in the order of asking.</summary>
    public required int Number { get; init; }

    public required string Model { get; init; }

    /// <summary>Of the reeds that were sent.</summary>
    public required Strength Strength { get; init; }

    public required Strength To { get; init; }

    public required int Quantity { get; init; }

    public required DateTime AskedUtc { get; init; }

    public ExchangeStage Stage { get; set; }

    /// <summary>The maker's sentence.</summary>
    public string? Answer { get; set; }

    public bool IsOpen => Stage == ExchangeStage.Asked;

    public bool IsAgreed => Stage == ExchangeStage.Agreed;
}
