using System.Net;

namespace ReedShop.Tests.Workshop;

public sealed class StartingInTheMiddleFacts
{
    [Fact]
    public async Task A_maker_starts_in_the_middle_of_things()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var started = await shop.PostJson("/api/starting-state", Middle);
        Assert.Equal(2, started.GetProperty("orders").GetInt32());

        var orders = (await shop.GetJson("/api/orders")).GetProperty("items").EnumerateArray().ToArray();
        Assert.Equal(
            ["accepted", "ready"],
            orders.Select(order => order.GetProperty("order").GetProperty("status").GetString())
        );
        var half = (await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray();
        Assert.Contains(half, batch => batch.GetProperty("nextStepName").GetString() == "play in");

        var again = await shop.Send(HttpMethod.Post, "/api/starting-state", Middle);
        await ShopHost.ReadProblem(again, HttpStatusCode.Conflict, "wrong-stage");
    }

    private static object Middle =>
        new
        {
            drawer = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    strength = 3.5,
                    count = 4,
                },
            },
            shelf = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    blanks = 30,
                    caneLot = ExampleReeds.KindLot,
                },
            },
            batches = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    blanks = 8,
                    nextStep = 8,
                    aim = 3.5,
                    lastWorkedOn = "2027-02-28",
                },
            },
            promises = new[] { Promise(4, 3.5), Promise(2, 3) },
        };

    private static object Promise(int quantity, double strength) =>
        new
        {
            buyerName = "Rui Example",
            buyerEmail = "rui@example.org",
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
                    model = ExampleReeds.Clarinet,
                    strength,
                    quantity,
                },
            },
            shipBy = "2027-03-29",
        };
}
