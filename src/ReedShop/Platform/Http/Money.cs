using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace ReedShop.Platform.Http;

/// <summary>An amount in minor units with its ISO 4217 currency.</summary>
public sealed record Money(long Amount, string Currency)
{
    // Far beyond any price; keeps the arithmetic from overflowing.
    private const decimal MostWritten = 1_000_000_000;

    private static readonly HashSet<string> WithoutMinorUnit = new(
        ["JPY", "KRW", "CLP", "ISK"],
        StringComparer.Ordinal
    );

    /// <summary>"20.00", or "2000" in a currency without a minor unit.</summary>
    public string Figure =>
        WithoutMinorUnit.Contains(Currency)
            ? FormattableString.Invariant($"{Amount}")
            : FormattableString.Invariant($"{Amount / 100}.{Amount % 100:00}");

    /// <summary>Reads "20", "20.5" or "20.50"; "20" alone where the currency has no minor unit.</summary>
    public static bool TryParse(string text, string currency, [NotNullWhen(true)] out Money? money)
    {
        var minor = WithoutMinorUnit.Contains(currency) ? 1 : 100;
        var fits =
            decimal.TryParse(
                text.Replace(',', '.'),
                NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out var amount
            )
            && amount <= MostWritten
            && amount * minor == decimal.Truncate(amount * minor);
        money = fits ? new Money((long)(amount * minor), currency) : null;
        return fits;
    }

    public override string ToString() => $"{Figure} {Currency}";
}
