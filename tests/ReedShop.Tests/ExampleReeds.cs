using System.Text;
using System.Text.Json;
using ReedShop.Catalogue;
using ReedShop.Demo;

namespace ReedShop.Tests;

/// <summary>An open shop that sells clarinet reeds: invented settings, a ready route, an invented history.</summary>
public static class ExampleReeds
{
    public const string Clarinet = "clarinet";
    public const string KindLot = "clarinet B";

    public static object Model =>
        new
        {
            name = "B-flat clarinet",
            instrument = "B-flat clarinet",
            cut = "plain",
            strengths = new[] { 2.5, 3, 3.5, 4 },
            price = new { amount = 350, currency = "EUR" },
            route = RouteShape.Of(ReadyRoutes.Clarinet.Route),
        };

    /// <summary>Settings, the clarinet model and one lot of seasoned cane; no history.</summary>
    public static async Task<ShopHost> NewShop(int caneBlanks = 400, DateTimeOffset? now = null)
    {
        var shop = await ShopHost.Start(now);
        await Fill(shop, caneBlanks);
        return shop;
    }

    /// <summary>The same in a shop that has been started.</summary>
    public static async Task Fill(ShopHost shop, int caneBlanks = 400)
    {
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        await shop.PutJson($"/api/models/{Clarinet}", Model);
        await shop.PostJson(
            "/api/cane",
            new
            {
                lot = KindLot,
                model = Clarinet,
                supplier = "an invented grower",
                harvest = 2024,
                seasonedFrom = "2026-06-01",
                blanks = caneBlanks,
            }
        );
    }

    /// <summary>The same with the clarinet rows of the demo's history imported.</summary>
    public static async Task<ShopHost> ShopWithHistory(int caneBlanks = 400, DateTimeOffset? now = null)
    {
        var shop = await NewShop(caneBlanks, now);
        await FillHistory(shop);
        return shop;
    }

    public static async Task FillHistory(ShopHost shop)
    {
        var history = DemoHistory.Of(seed: 7, lastDay: new DateOnly(2027, 2, 26));
        var steps = Rows(history.Steps, row => row.Contains($",{Clarinet},", StringComparison.Ordinal));
        var batches = steps.Split('\n').Select(row => row.Split(',')[0]).ToHashSet();
        await Import(shop, "/api/history/steps", steps);
        await Import(shop, "/api/history/grades", Rows(history.Grades, row => batches.Contains(row.Split(',')[0])));
    }

    public static async Task<JsonElement> Import(ShopHost shop, string path, string csv)
    {
        using var body = new StringContent(csv, Encoding.UTF8, "text/csv");
        var report = await ShopHost.Read(await shop.Owner.PostAsync(path, body));
        Assert.Equal(0, report.GetProperty("badCount").GetInt32());
        return report;
    }

    public static object Lines(params (double Strength, int Quantity)[] lines) =>
        new
        {
            lines = lines.Select(line => new
            {
                model = Clarinet,
                strength = line.Strength,
                quantity = line.Quantity,
            }),
        };

    public static object Order(string quoteId, string name = "Ana Example") =>
        new
        {
            quoteId,
            buyer = new { name, email = "ana@example.org" },
            address = new
            {
                street = "1 Quay",
                locality = "Harbour",
                postalCode = "1000-001",
                country = "PT",
            },
        };

    private static string Rows(string csv, Func<string, bool> wanted)
    {
        var rows = csv.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        return string.Join('\n', rows.Where((row, index) => index == 0 || wanted(row))) + "\n";
    }
}
