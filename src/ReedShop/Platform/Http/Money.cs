using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json.Serialization;

namespace ReedShop.Platform.Http;

/// <summary>An amount in minor units with its ISO 4217 currency.</summary>
public sealed record Money(long Amount, string Currency)
{
    // Far beyond any price; keeps the arithmetic from overflowing.
    private const decimal MostWritten = 1_000_000_000;

    private const int UsualDigits = 2;

    // The exceptions of ISO 4217 (its list one, column "minor unit"; value from memory).
    private static readonly Dictionary<int, string[]> OtherDigits = new()
    {
        [0] =
        [
            "BIF",
            "CLP",
            "DJF",
            "GNF",
            "ISK",
            "JPY",
            "KMF",
            "KRW",
            "PYG",
            "RWF",
            "UGX",
            "VND",
            "VUV",
            "XAF",
            "XOF",
            "XPF",
        ],
        [3] = ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"],
    };

    // Those in use somewhere, as the runtime's tables of countries know them.
    private static readonly Lazy<HashSet<string>> InUse = new(() =>
        CultureInfo
            .GetCultures(CultureTypes.SpecificCultures)
            .Select(culture => new RegionInfo(culture.Name).ISOCurrencySymbol)
            .ToHashSet(StringComparer.Ordinal)
    );

    public static bool IsInUse(string currency) => InUse.Value.Contains(currency);

    /// <summary>How many digits stand after the point.</summary>
    [JsonIgnore]
    public int MinorDigits => DigitsOf(Currency);

    /// <summary>12.50 of 1250 cents.</summary>
    [JsonIgnore]
    public decimal Major => Amount / MinorOf(Currency);

    /// <summary>The same taken off.</summary>
    [JsonIgnore]
    public Money Negative => this with { Amount = -Amount };

    /// <summary>"20.00", or "2000" in a currency without a minor unit: for fields, whoever reads them.</summary>
    public string Figure => Major.ToString($"F{MinorDigits}", CultureInfo.InvariantCulture);

    /// <summary>Reads "20", "20.5" or "20.50"; "20" alone where the currency has no minor unit.</summary>
    public static bool TryParse(string text, string currency, [NotNullWhen(true)] out Money? money)
    {
        var minor = MinorOf(currency);
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

    private static int DigitsOf(string currency) =>
        OtherDigits
            .Where(row => row.Value.Contains(currency, StringComparer.Ordinal))
            .Select(row => row.Key)
            .FirstOrDefault(UsualDigits);

    private static decimal MinorOf(string currency) => (decimal)Math.Pow(10, DigitsOf(currency));
}
