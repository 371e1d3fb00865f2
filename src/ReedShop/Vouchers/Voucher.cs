using ReedShop.Orders;

namespace ReedShop.Vouchers;

public enum VoucherState
{
    Open,

    /// <summary>By the owner.</summary>
    Ended,

    PastLastDay,
    UsedUp,
}

/// <summary>A code that takes something off the reeds of an order. Once made, it can only be ended.</summary>
public sealed class Voucher
{
    public const int LeastCharacters = 4;
    public const int MostCharacters = 40;

    /// <summary>As it is compared: in capitals, without spaces around it.</summary>
    public required string Code { get; init; }

    /// <summary>Off the reeds, 0 to 1; null where it is an amount.</summary>
    public double? Share { get; init; }

    public long AmountMinor { get; init; }

    /// <summary>The last day, by the shop's clock, that a price is told with it.</summary>
    public DateOnly? LastDay { get; init; }

    public int? MostUses { get; init; }

    /// <summary>The reeds of an order have to cost that much before anything is taken off.</summary>
    public long LeastReedsMinor { get; init; }

    public required DateTime MadeUtc { get; init; }

    public DateTime? EndedUtc { get; set; }

    public Discount Discount => new(Share, AmountMinor);

    /// <param name="uses">Counted from the orders: there is no number that could go wrong.</param>
    public VoucherState StateOn(DateOnly day, int uses) =>
        EndedUtc is not null ? VoucherState.Ended
        : uses >= MostUses ? VoucherState.UsedUp
        : day > LastDay ? VoucherState.PastLastDay
        : VoucherState.Open;

    /// <summary>A code as it was typed, as it is compared.</summary>
    public static string Read(string typed) => typed.Trim().ToUpperInvariant();
}
