using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Watch;

/// <summary>
/// On Sunday 2 May trays of 12, 20 and 14 blanks are half-way and five promises are open. On Monday the maker falls ill
/// until the 16th. The 12 were racked on Friday and may lie three nights. Three promises fall into the fortnight.
/// </summary>
public sealed class FluFacts
{
    private static readonly DateTimeOffset Sunday = new(2027, 5, 2, 20, 0, 0, TimeSpan.Zero);
    private static readonly string[] ShipBy = ["2027-05-10", "2027-05-13", "2027-05-17", "2027-06-10", "2027-06-14"];

    [Fact]
    public async Task Five_promises_three_slip_and_each_buyer_hears_once_when_the_maker_has_approved()
    {
        await using var shop = await Ill();
        await Draw(shop);

        var risks = await Letters(shop, "promise-at-risk");
        Assert.True(risks.Length == 3, string.Join('\n', risks.Select(letter => letter.Text)));
        Assert.All(risks, letter => Assert.Equal("maker@example.org", letter.To));
        Assert.Empty(await Letters(shop, "date-moved"));
        var orders = await Orders(shop);
        Assert.Equal(ShipBy, orders.Select(order => order.GetProperty("shipBy").GetString()));

        foreach (var slipped in orders[..3].Select(Promised.Id))
        {
            var day = (await Promised.Watched(shop, slipped)).GetProperty("newDate");
            await ShopHost.Read(await Promised.Move(shop, slipped, ExampleMaker.Day(day, "shipBy")));
        }

        Assert.Equal(3, (await Letters(shop, "date-moved")).DistinctBy(letter => letter.Subject).Count());
        await LieIll(shop);
        Assert.Equal(3, (await Letters(shop, "date-moved")).Length);
        Assert.Equal(3, (await Letters(shop, "promise-at-risk")).Length);
        Assert.All(
            await Orders(shop),
            order => Assert.True(ExampleMaker.Day(order, "shipBy") > new DateOnly(2027, 5, 17))
        );
    }

    [Fact]
    public async Task The_plan_soaks_and_flattens_the_twelve_once_more_instead_of_refusing()
    {
        await using var shop = await Ill();

        var week = await shop.GetJson("/api/week?from=2027-05-17");
        var sittings = week.GetProperty("days")
            .EnumerateArray()
            .SelectMany(day => day.GetProperty("sittings").EnumerateArray());
        var again = Assert.Single(sittings, sitting => sitting.GetProperty("again").GetBoolean());

        Assert.Equal(12, again.GetProperty("blanks").GetInt32());
        Assert.Equal(["flatten", "rack"], again.GetProperty("steps").EnumerateArray().Select(step => step.GetString()));
        Assert.Empty(week.GetProperty("unplaced").EnumerateArray());
    }

    /// <summary>Every night the sweep plans again what the day left undone, and every morning the chances are drawn.</summary>
    private static async Task LieIll(ShopHost shop)
    {
        for (var day = 1; day <= 14; day++)
        {
            shop.Time.SetUtcNow(Sunday.AddDays(day));
            await shop.Tick("plan-sweep");
            await Draw(shop);
        }
    }

    private static async Task<ShopHost> Ill()
    {
        var shop = await ShopHost.Start(Sunday);
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        await shop.PutJson("/api/models/clarinet", Model);
        await shop.PostJson("/api/cane", ExampleShop.Cane);
        await ExampleReeds.Import(shop, "/api/history/steps", Steps);
        await ExampleReeds.Import(shop, "/api/history/grades", Grades);
        await shop.PostJson(
            "/api/starting-state",
            new
            {
                drawer = Array.Empty<object>(),
                shelf = Array.Empty<object>(),
                batches = new[] { Tray(12, 3), Tray(20, 4), Tray(14, 4) },
                promises = ShipBy.Select((day, number) => Promise(day, number)),
            }
        );
        shop.Time.SetUtcNow(Sunday.AddHours(12));
        await shop.Tick("plan-sweep");
        await CallInIll(shop);
        await shop.Tick("plan-sweep");
        return shop;
    }

    /// <summary>An invented year of batches of 20, of which one blank warps and two reeds come out a half step off.</summary>
    private static IEnumerable<int> Batches => Enumerable.Range(1, 24);

    private static string Steps =>
        Csv(
            "batch,model,aim,caneLot,date,step,in,out",
            Batches.Select(n => $"past {n},clarinet,3.5,,2026-{1 + (n / 2 % 12):00}-{1 + n:00},level,20,19")
        );

    private static string Grades =>
        Csv(
            "batch,strength,count",
            Batches.SelectMany(n => new[] { $"past {n},3.5,17", $"past {n},3,1", $"past {n},4,1" })
        );

    private static string Csv(string head, IEnumerable<string> rows) => string.Join('\n', rows.Prepend(head)) + "\n";

    private static async Task CallInIll(ShopHost shop)
    {
        var known = await shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken);
        var settings = JsonNode.Parse(await known.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
        var ill = Enumerable
            .Range(3, 14)
            .Select(day => new
            {
                date = $"2027-05-{day:00}",
                hours = Array.Empty<object>(),
                reason = "ill",
            });
        settings["otherDays"] = JsonSerializer.SerializeToNode(ill);
        await shop.PutJson("/api/shop", settings, known.Headers.ETag!.Tag);
    }

    private static async Task<JsonElement[]> Orders(ShopHost shop) =>
        [
            .. (await shop.GetJson("/api/orders"))
                .GetProperty("items")
                .EnumerateArray()
                .Select(item => item.GetProperty("order"))
                .OrderBy(order => order.GetProperty("number").GetInt32()),
        ];

    private static object Model =>
        ExampleModel.Of(
            ExampleModel.Step("flatten", 60, soakMinutes: 10),
            ExampleModel.Step("rack", 6, dry: ExampleModel.Night(mostNights: 3)),
            ExampleModel.Step("level", 60, dry: ExampleModel.Night(), check: "counted", redoFrom: "flatten"),
            ExampleModel.Step("clip", 30, check: "graded")
        );

    private static object Tray(int blanks, int nextStep) =>
        new
        {
            model = "clarinet",
            blanks,
            nextStep,
            aim = 3.5,
            lastWorkedOn = "2027-04-30",
        };

    private static object Promise(string shipBy, int number) =>
        new
        {
            buyerName = $"Buyer {number}",
            buyerEmail = $"buyer{number}@example.org",
            address = new
            {
                street = "2 Quay",
                locality = "Harbour",
                postalCode = "1000-002",
                country = "PT",
            },
            lines = new[]
            {
                new
                {
                    model = "clarinet",
                    strength = 3.5,
                    quantity = 2,
                },
            },
            shipBy,
        };
}
