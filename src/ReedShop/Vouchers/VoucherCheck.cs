using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using static ReedShop.Vouchers.VoucherTexts;

namespace ReedShop.Vouchers;

/// <summary>Whether a code takes something off. Asked within the transaction that accepts an order it cannot be taken twice.</summary>
public sealed class VoucherCheck(VoucherStore vouchers)
{
    public const string Field = "voucher";

    /// <param name="day">When the price was told.</param>
    public async Task<Result<Voucher>> Usable(
        string typed,
        OrderPrice price,
        string currency,
        DateOnly day,
        CancellationToken cancel
    )
    {
        if (await vouchers.Find(Voucher.Read(typed), cancel) is not { } voucher)
        {
            return Refused("Unknown");
        }

        var least = new Money(voucher.LeastReedsMinor, currency);
        var state = voucher.StateOn(day, await vouchers.Uses(voucher.Code, cancel));
        return state != VoucherState.Open ? Refused($"{state}")
            : price.ReedsMinor < voucher.LeastReedsMinor
                ? Refusal.Invalid(
                    Field,
                    Say["TooLittle"],
                    Say["TooLittle.instead", Words.Named(Words.Money(least), $"{least}")]
                )
            : voucher;
    }

    /// <summary>Whether a use that was given back can be taken again, for an order that is paid after all.</summary>
    public async Task<bool> IsLeft(string code, CancellationToken cancel) =>
        await vouchers.Find(code, cancel) is { } voucher
        && (voucher.MostUses is not { } most || await vouchers.Uses(code, cancel) < most);

    private static Refusal Refused(string why) => Refusal.Invalid(Field, Say[why], Say["AnotherOrNone"]);
}
