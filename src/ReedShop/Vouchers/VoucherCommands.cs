using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Vouchers;

/// <summary>A voucher that the owner makes: a share or an amount off the reeds.</summary>
/// <param name="Code">4 to 40 letters, digits and hyphens; compared without regard to case.</param>
/// <param name="Share">Off the reeds, above 0 and up to 1.</param>
/// <param name="LastDay">No last day where it is missing.</param>
/// <param name="MostUses">As often as anybody likes where it is missing.</param>
/// <param name="LeastReeds">What the reeds of an order have to cost at least.</param>
public sealed record VoucherWish(
    string Code,
    double? Share = null,
    Money? Amount = null,
    DateOnly? LastDay = null,
    int? MostUses = null,
    Money? LeastReeds = null
);

/// <summary>Vouchers made and ended, whichever door they come through.</summary>
public sealed class VoucherCommands(FactsGate gate)
{
    public const int MostUses = 100_000;
    private const long MostMinor = 1_000_000;

    public Task<Result<VoucherView>> Make(VoucherWish wish, CancellationToken cancel) =>
        gate.Write((services, stop) => Make(services, wish, stop), cancel);

    /// <summary>Prices that were told with it and are not ordered yet fall with it.</summary>
    public Task<Result<VoucherView>> End(string code, CancellationToken cancel) =>
        gate.Write<VoucherView>(
            async (services, stop) =>
            {
                var vouchers = services.GetRequiredService<VoucherStore>();
                if (await services.GetRequiredService<ShopStore>().Find(stop) is not { } shop)
                {
                    return ShopCommands.NoShopYet;
                }

                if (await vouchers.Find(Voucher.Read(code), stop) is not { } voucher)
                {
                    return Refusal.Missing("such voucher");
                }

                var clock = services.GetRequiredService<ShopClock>();
                if (voucher.EndedUtc is null)
                {
                    voucher.EndedUtc = clock.NowUtc;
                    services.GetRequiredService<JournalStore>().Write("owner", $"voucher {voucher.Code}", "ended");
                }

                var used = new UsedVoucher(voucher, await vouchers.Uses(voucher.Code, stop));
                return VoucherView.Of(used, shop.Currency, clock.Today(shop.Zone));
            },
            cancel
        );

    private static async Task<Result<VoucherView>> Make(
        IServiceProvider services,
        VoucherWish wish,
        CancellationToken cancel
    )
    {
        var vouchers = services.GetRequiredService<VoucherStore>();
        if (await services.GetRequiredService<ShopStore>().Find(cancel) is not { } shop)
        {
            return ShopCommands.NoShopYet;
        }

        var clock = services.GetRequiredService<ShopClock>();
        var code = Voucher.Read(wish.Code);
        if (Fault(code, wish, shop.Currency, clock.Today(shop.Zone)) is { } fault)
        {
            return fault;
        }

        if (await vouchers.Find(code, cancel) is not null)
        {
            return new Refusal(RefusalKind.WrongStage, $"There is a voucher {code} already.", "code", "another code");
        }

        var voucher = new Voucher
        {
            Code = code,
            Share = wish.Share,
            AmountMinor = wish.Amount?.Amount ?? 0,
            LastDay = wish.LastDay,
            MostUses = wish.MostUses,
            LeastReedsMinor = wish.LeastReeds?.Amount ?? 0,
            MadeUtc = clock.NowUtc,
        };
        vouchers.Add(voucher);
        services.GetRequiredService<JournalStore>().Write("owner", $"voucher {code}", "made");
        return VoucherView.Of(new UsedVoucher(voucher, 0), shop.Currency, clock.Today(shop.Zone));
    }

    private static Refusal? Fault(string code, VoucherWish wish, string currency, DateOnly today) =>
        code.Length is < Voucher.LeastCharacters or > Voucher.MostCharacters
        || !code.All(c => char.IsAsciiLetterUpper(c) || char.IsAsciiDigit(c) || c == '-')
            ? Refusal.Invalid(
                "code",
                "The code cannot be used.",
                $"{Voucher.LeastCharacters} to {Voucher.MostCharacters} of A-Z, 0-9 and -"
            )
        : wish.Share is null == wish.Amount is null
            ? Refusal.Invalid(
                "share",
                "It is either a share of the reeds' price or an amount.",
                Words.Named("a number in 100, or an amount; not both", "share or amount, not both")
            )
        : wish.Share is not (null or (> 0 and <= 1))
            ? Refusal.Invalid(
                "share",
                "The share cannot be used.",
                Words.Named("above 0 and up to 100 in 100", "above 0 and up to 1")
            )
        : AmountFault("amount", wish.Amount, currency)
            ?? AmountFault("leastReeds", wish.LeastReeds, currency)
            ?? LimitFault(wish, today);

    private static Refusal? AmountFault(string field, Money? amount, string currency) =>
        amount is null ? null
        : amount.Currency != currency
            ? Refusal.Invalid($"{field}.currency", "It is in another currency than the shop's.", currency)
        : amount.Amount is < 1 or > MostMinor
            ? Refusal.Invalid(
                field,
                "The amount cannot be used.",
                Words.Named(
                    $"{new Money(1, currency)} to {new Money(MostMinor, currency)}",
                    $"1 to {MostMinor} in the minor unit"
                )
            )
        : null;

    private static Refusal? LimitFault(VoucherWish wish, DateOnly today) =>
        wish.LastDay < today
            ? Refusal.Invalid("lastDay", "The last day has passed.", $"{Words.DayToSend(today)} or later, or nothing")
        : wish.MostUses is not (null or (>= 1 and <= MostUses))
            ? Refusal.Invalid("mostUses", "So many uses cannot be set.", $"1 to {MostUses}, or nothing")
        : null;
}
