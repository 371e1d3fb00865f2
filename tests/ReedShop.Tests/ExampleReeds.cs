namespace ReedShop.Tests;

/// <summary>An invented model with a short route: two preparation steps, four finishing steps.</summary>
public static class ExampleReeds
{
    public const string Clarinet = "clarinet";

    public static object Model =>
        new
        {
            name = "B-flat clarinet",
            instrument = "B-flat clarinet",
            cut = "plain",
            strengths = new[] { 2.5, 3, 3.5, 4 },
            price = new { amount = 350, currency = "EUR" },
            route = new object[]
            {
                new
                {
                    name = "preparation",
                    endsOnShelf = true,
                    steps = new object[]
                    {
                        Step("coarse flatten", "coarse plate", 6, 60, nights: 1),
                        Step("fine flatten", "fine plate", 6, 60, nights: 1, check: "counted", redoFrom: "coarse flatten"),
                    },
                },
                new
                {
                    name = "finishing",
                    endsOnShelf = false,
                    steps = new object[]
                    {
                        Step("profile", "profiler", 10, 150, check: "counted"),
                        Step("clip", "clipper", 4, 30, nights: 1, check: "counted"),
                        Step("play in", "chair", 2, 120, nights: 1, check: "counted"),
                        Step("grade", "chair", 2, 60, check: "graded"),
                    },
                },
            },
        };

    /// <summary>Settings, the clarinet model and one lot of seasoned cane.</summary>
    public static async Task<ShopHost> OpenShop(int caneBlanks = 400, DateTimeOffset? now = null)
    {
        var shop = await ShopHost.Start(now);
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        await shop.PutJson($"/api/models/{Clarinet}", Model);
        await shop.PostJson(
            "/api/cane",
            new
            {
                lot = "north",
                model = Clarinet,
                supplier = "an invented grower",
                harvest = 2024,
                seasonedFrom = "2026-06-01",
                blanks = caneBlanks,
            }
        );
        return shop;
    }

    private static object Step(
        string name,
        string setUp,
        int setUpMinutes,
        int secondsPerBlank,
        int? nights = null,
        string check = "none",
        string? redoFrom = null
    ) =>
        new
        {
            name,
            setUp,
            setUpMinutes,
            secondsPerBlank,
            dry = nights is { } least ? new { nights = least, leastHours = 12 } : null,
            check,
            redoFrom,
        };
}
