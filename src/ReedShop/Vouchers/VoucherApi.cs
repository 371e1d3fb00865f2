using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Shop;

namespace ReedShop.Vouchers;

/// <summary>A voucher as the owner sees it.</summary>
/// <param name="Uses">By orders that stand or wait to be paid.</param>
public sealed record VoucherView(
    string Code,
    VoucherState Status,
    int Uses,
    double? Share,
    Money? Amount,
    DateOnly? LastDay,
    int? MostUses,
    Money? LeastReeds
)
{
    public static VoucherView Of(UsedVoucher used, string currency, DateOnly today)
    {
        var voucher = used.Voucher;
        return new(
            voucher.Code,
            voucher.StateOn(today, used.Uses),
            used.Uses,
            voucher.Share,
            voucher.AmountMinor > 0 ? new Money(voucher.AmountMinor, currency) : null,
            voucher.LastDay,
            voucher.MostUses,
            voucher.LeastReedsMinor > 0 ? new Money(voucher.LeastReedsMinor, currency) : null
        );
    }
}

/// <summary>The vouchers as they stand today.</summary>
public sealed class VoucherReader(VoucherStore vouchers, ShopStore shops, ShopClock clock)
{
    public async Task<IReadOnlyList<VoucherView>> All(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return [];
        }

        var all = await vouchers.All(cancel);
        return [.. all.Select(used => VoucherView.Of(used, shop.Currency, clock.Today(shop.Zone)))];
    }
}

public static class VoucherApi
{
    public static void MapVoucherApi(this IEndpointRouteBuilder routes)
    {
        var vouchers = routes.MapGroup("/api/vouchers").WithTags("Vouchers").RequireAuthorization(Access.OwnerToken);
        vouchers.MapGet("", List).WithSummary("All vouchers, newest first, with how often each is used.");
        vouchers.MapPost("", Make).WithSummary("Makes a voucher: a share or an amount off the reeds of an order.");
        vouchers.MapPost("{code}/end", End).WithSummary("Ends a voucher: no order takes it any more.");
    }

    private static async Task<Ok<IReadOnlyList<VoucherView>>> List(VoucherReader reader, CancellationToken cancel) =>
        TypedResults.Ok(await reader.All(cancel));

    private static async Task<Results<Created<VoucherView>, Refused>> Make(
        VoucherWish wish,
        VoucherCommands commands,
        CancellationToken cancel
    ) => (await commands.Make(wish, cancel)).CreatedOrRefused(_ => "/api/vouchers");

    private static async Task<Results<Ok<VoucherView>, Refused>> End(
        string code,
        VoucherCommands commands,
        CancellationToken cancel
    ) => (await commands.End(code, cancel)).OkOrRefused();
}
