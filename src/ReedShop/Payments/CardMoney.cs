using ReedShop.Platform.Http;

namespace ReedShop.Payments;

/// <summary>
/// How an amount of the shop is told to Stripe, and back. Stripe counts in its own smallest unit, which is not always that
/// of ISO 4217, and takes some currencies in coarser steps only.
/// </summary>
/// <param name="Digits">Digits after the point in the amounts Stripe is sent.</param>
/// <param name="Step">Amounts sent must be a multiple of it.</param>
public sealed record CardMoney(string Currency, int Digits, long Step)
{
    // Stripe's page on currencies: the fifteen without digits (several sources agree; value from memory), the five with
    // three digits, of which the last must be 0, and the krona, written with two digits that must be 00.
    private static readonly string[] NoDigits =
    [
        "BIF",
        "CLP",
        "DJF",
        "GNF",
        "JPY",
        "KMF",
        "KRW",
        "MGA",
        "PYG",
        "RWF",
        "VND",
        "VUV",
        "XAF",
        "XOF",
        "XPF",
    ];

    private static readonly string[] ThreeDigits = ["BHD", "JOD", "KWD", "OMR", "TND"];

    // Of UGX sources disagree whether 500 means 5 or 500, which is no place to guess; IQD and LYD are not on the page.
    private static readonly string[] NotTaken = ["IQD", "LYD", "UGX"];

    // The least that Stripe charges, in its unit (values from memory); of others half of the main unit, or one step.
    private static readonly Dictionary<string, long> Floors = new(StringComparer.Ordinal)
    {
        ["GBP"] = 30,
        ["AED"] = 200,
        ["MYR"] = 200,
        ["PLN"] = 200,
        ["RON"] = 200,
        ["DKK"] = 250,
        ["NOK"] = 300,
        ["SEK"] = 300,
        ["HKD"] = 400,
        ["MXN"] = 1000,
        ["THB"] = 1000,
        ["CZK"] = 1500,
        ["HUF"] = 17500,
    };

    /// <summary>Null for a currency that cards are not taken in: such a shop sends invoices.</summary>
    public static CardMoney? Of(string currency) =>
        NotTaken.Contains(currency, StringComparer.Ordinal) ? null
        : NoDigits.Contains(currency, StringComparer.Ordinal) ? new CardMoney(currency, 0, 1)
        : ThreeDigits.Contains(currency, StringComparer.Ordinal) ? new CardMoney(currency, 3, 10)
        : currency == "ISK" ? new CardMoney(currency, 2, 100)
        : new CardMoney(currency, 2, 1);

    /// <summary>
    /// The amount a card can be charged that is nearest to this one, in the shop's minor unit; halves are rounded up.
    /// </summary>
    public long Payable(long minor) => FromStripe(Rounded(minor));

    /// <summary>The least a card is charged, in the shop's minor unit.</summary>
    public long Least => FromStripe(Math.Max(Step, Floors.GetValueOrDefault(Currency, Digits == 3 ? 500 : 50)));

    /// <summary>An amount of the shop as Stripe is sent it. It must be payable: nothing is rounded on the way.</summary>
    public long ToStripe(long minor) =>
        FromStripe(Rounded(minor)) == minor
            ? Rounded(minor)
            : throw new ArgumentOutOfRangeException(nameof(minor), minor, "Round it to a payable amount first.");

    public long FromStripe(long sent) => (long)(sent * Shift(MinorDigits - Digits));

    private int MinorDigits => new Money(0, Currency).MinorDigits;

    private long Rounded(long minor) =>
        (long)Math.Round(minor * Shift(Digits - MinorDigits) / Step, MidpointRounding.AwayFromZero) * Step;

    private static decimal Shift(int digits) => (decimal)Math.Pow(10, digits);
}
