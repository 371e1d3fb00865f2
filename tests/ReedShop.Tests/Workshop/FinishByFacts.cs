using System.Text.Json;
using ReedShop.Orders;
using ReedShop.Planning.Bench;
using ReedShop.Workshop;

namespace ReedShop.Tests.Workshop;

/// <summary>Five reeds are promised from one batch that walks the whole route.</summary>
public sealed class FinishByFacts
{
    /// <summary>Two racks, two flattenings, sides, profile, clip; next they are played in.</summary>
    private const int Clipped = 7;

    [Fact]
    public async Task The_due_day_relaxes_with_nights_that_are_over_and_tightens_with_blanks_that_are_lost()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var promised = await Promise(shop);
        var run = Assert.Single(await new ExampleMaker(shop).OpenBatches());
        var blanks = (await shop.GetJson($"/api/batches/{run}")).GetProperty("batch").GetProperty("blanks").GetInt32();

        for (var step = 1; step <= Clipped; step++)
        {
            await Record(shop, run, step, passed: blanks, lost: 0);
        }

        var clipped = await Order(shop);
        await Record(shop, run, Clipped + 1, passed: 5, lost: blanks - 5);
        var lost = await Order(shop);

        Assert.True(ExampleMaker.Day(clipped, "finishBy") > ExampleMaker.Day(promised, "finishBy"));
        Assert.True(
            ExampleMaker.Day(lost, "finishBy") < ExampleMaker.Day(clipped, "finishBy"),
            $"{blanks} {clipped} {lost}"
        );
        Assert.Equal(Told(promised), Told(clipped));
        Assert.Equal(Told(promised), Told(lost));
    }

    [Fact]
    public void Reeds_that_lie_ready_are_on_time_on_their_own_ship_day()
    {
        var thursday = new DateOnly(2027, 3, 4);
        var ships = new ShipCalendar(new HashSet<DayOfWeek> { DayOfWeek.Thursday }, new HashSet<DateOnly>());

        Assert.Equal(Punctuality.OnTime, Punctuality.ByPlan(Ready(thursday), thursday, ships, thursday));
        Assert.Equal(Punctuality.Late, Punctuality.ByPlan(Ready(thursday), thursday, ships, thursday.AddDays(1)));
    }

    private static async Task<JsonElement> Promise(ShopHost shop)
    {
        var quote = await shop.PostJson(
            "/api/quotes",
            new
            {
                lines = new[]
                {
                    new
                    {
                        model = ExampleReeds.Clarinet,
                        strength = 3.5,
                        quantity = 5,
                    },
                },
                confidence = 0.6,
            }
        );
        await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        return await Order(shop);
    }

    private static async Task<JsonElement> Order(ShopHost shop) =>
        Assert.Single((await shop.GetJson("/api/orders")).GetProperty("items").EnumerateArray());

    private static (string?, double) Told(JsonElement order) =>
        (
            order.GetProperty("order").GetProperty("shipBy").GetString(),
            order.GetProperty("order").GetProperty("chance").GetDouble()
        );

    private static Task<JsonElement> Record(ShopHost shop, string batch, int step, int passed, int lost) =>
        shop.PostJson(
            $"/api/batches/{batch}/steps/{step}/record",
            new { passed, rejected = lost == 0 ? [] : new[] { new { reason = "crack", count = lost } } }
        );

    private static Order Ready(DateOnly shipBy) =>
        new()
        {
            Id = "1",
            Number = 1,
            QuoteId = "1",
            Stage = OrderStage.Ready,
            BuyerName = "Ana Example",
            BuyerEmail = "ana@example.org",
            Address = new PostalAddress("1 Quay", "Harbour", "1000-001", "PT"),
            Lines = [],
            PriceMinor = 0,
            Currency = "EUR",
            AcceptedUtc = DateTime.UnixEpoch,
            ShipBy = shipBy,
            FirstShipBy = shipBy,
            FirstChance = 0.9,
            FinishBy = shipBy.AddDays(-1),
            Confidence = 0.9,
            Chance = 0.9,
        };
}
