using System.Globalization;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Vouchers;

/// <summary>Reads what is typed of a voucher.</summary>
public static class VoucherForm
{
    public static Result<VoucherWish> Read(IFormCollection form, string currency)
    {
        var share = Share(form);
        var amount = Amount(form, "amount", currency);
        var least = Amount(form, "leastReeds", currency);
        var lastDay = LastDay(form);
        var uses = form.Whole("mostUses");
        return (share.Refusal ?? amount.Refusal ?? least.Refusal ?? lastDay.Refusal ?? uses.Refusal) is { } fault
            ? fault
            : new VoucherWish(form.Text("code"), share.Value, amount.Value, lastDay.Value, uses.Value, least.Value);
    }

    private static Result<double?> Share(IFormCollection form) =>
        form.Text("share").Length == 0 ? (double?)null
        : decimal.TryParse(
            form.Text("share").Replace(',', '.'),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var inHundred
        )
            ? (double)(inHundred / 100)
        : Refusal.Invalid(
            "share",
            $"“{form.Text("share")}” is not a number.",
            "a number in 100, such as 10, or nothing"
        );

    private static Result<Money?> Amount(IFormCollection form, string field, string currency) =>
        form.Text(field).Length == 0 ? (Money?)null
        : Money.TryParse(form.Text(field), currency, out var amount) ? amount
        : Refusal.Invalid(
            field,
            $"“{form.Text(field)}” is not an amount.",
            $"an amount of {currency}, such as {new Money(500, currency).Figure}, or nothing"
        );

    private static Result<DateOnly?> LastDay(IFormCollection form) =>
        form.Text("lastDay").Length == 0 ? (DateOnly?)null
        : DateOnly.TryParseExact(
            form.Text("lastDay"),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
        : Refusal.Invalid(
            "lastDay",
            $"“{form.Text("lastDay")}” is not a day.",
            "a date such as 2027-03-04, or nothing"
        );
}
