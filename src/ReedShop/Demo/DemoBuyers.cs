using System.Globalization;
using ReedShop.Catalogue;
using ReedShop.Checkout;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Scheduling;
using ReedShop.Quotes;

namespace ReedShop.Demo;

/// <summary>Buyers who do not exist, and what they ask for. Their mail addresses can reach nobody.</summary>
public static class DemoBuyers
{
    private const int MostReeds = 5;

    private static readonly string[] Names =
    [
        "Ines",
        "Tomas",
        "Livia",
        "Rui",
        "Clara",
        "Ivo",
        "Marta",
        "Nuno",
        "Alma",
        "Davi",
        "Greta",
        "Hugo",
        "Ilse",
        "Joel",
        "Kira",
    ];

    private static readonly ReadyRoute[] Models =
    [
        ReadyRoutes.Clarinet,
        ReadyRoutes.Clarinet,
        ReadyRoutes.AltoSaxophone,
        ReadyRoutes.Clarinet,
        ReadyRoutes.BassClarinet,
        ReadyRoutes.AltoSaxophone,
    ];

    /// <summary>The middle strengths are asked for most.</summary>
    private static readonly Strength[] Wanted = [.. new[] { 10, 12, 12, 12, 14, 14, 16 }.Select(Strength.OfQuarters)];

    /// <summary>The wish of the n-th buyer; the same seed gives the same wishes.</summary>
    public static QuoteRequest Wish(ulong seed, int n)
    {
        var dice = new Dice(seed + (ulong)n);
        var first = Models[n % Models.Length];
        var lines = new List<QuoteLine> { Line(first, ref dice) };
        if (dice.Below(5) == 0)
        {
            lines.Add(Line(Models[(n + 2) % Models.Length], ref dice));
        }

        return new QuoteRequest(lines, Neighbours: dice.Below(5) == 0 ? 1 : 0);
    }

    public static Buyer Buyer(int n) =>
        new(
            string.Create(CultureInfo.InvariantCulture, $"{Names[n % Names.Length]} Demo"),
            string.Create(CultureInfo.InvariantCulture, $"buyer{n + 1}@example.org")
        );

    public static PostalAddress Address(int n) =>
        new(
            string.Create(CultureInfo.InvariantCulture, $"{n + 1} Invented Street"),
            "Exampleton",
            "0000-000",
            "Nowhere"
        );

    private static QuoteLine Line(ReadyRoute ready, ref Dice dice) =>
        new(ready.Model, Wanted[dice.Below(Wanted.Length)], 2 + dice.Below(MostReeds - 1));
}
