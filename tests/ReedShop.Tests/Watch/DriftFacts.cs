using System.Text.Json;
using System.Text.Json.Nodes;
using static ReedShop.Tests.Watch.Promised;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Watch;

/// <summary>
/// Seventeen reeds for ten 3½ and two 4: off the profile they are three 3, two 3¼, nine 3½ and three 4; played in, three 3,
/// four 3¼, eight 3½ and two 4. Two are missing, and there is no cane for an extra batch.
/// </summary>
public sealed class DriftFacts
{
    [Fact]
    public async Task Nothing_is_promised_from_the_first_reading()
    {
        await using var shop = await PlayingIn();

        await Grade(shop, final: false, (3, 3), (3.25, 2), (3.5, 9), (4, 3));

        Assert.Empty((await shop.GetJson("/api/drawer")).EnumerateArray());
        Assert.NotEqual("ready", (await OnlyOrder(shop)).GetProperty("status").GetString());
    }

    [Fact]
    public async Task The_choices_stand_side_by_side_with_their_chances()
    {
        await using var shop = await PlayedIn();
        var order = Id(await OnlyOrder(shop));

        var watch = await Watched(shop, order);

        var clip = Assert.Single(Rescues(watch, "clip"));
        Assert.Equal(0.8208, clip.GetProperty("enough").GetDouble(), 9);
        Assert.Contains("about 82 times in 100", clip.GetProperty("change").GetString(), StringComparison.Ordinal);
        Assert.Equal(2, clip.GetProperty("quantity").GetInt32());
        var ask = Rescues(watch, "otherStrength").Single(other => other.GetProperty("also").GetDouble() == 3.25);
        Assert.Equal(0.99, Chance(ask));
        Assert.Equal([(3.5, 8), (4.0, 2)], Reeds(watch.GetProperty("readyNow")));
        using var owner = await Visitor.Owner(shop);
        var page = System.Net.WebUtility.HtmlDecode(await owner.Read($"/bench/orders/{order}/watch"));
        foreach (
            var choice in new[]
            {
                "clip 4 that lie",
                "ask the buyer to take 3¼",
                "8 of 3½ (clarinet), 2 of 4 (clarinet) could leave now",
            }
        )
        {
            Assert.Contains(choice, page, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Eight_and_two_leave_now_and_the_two_that_come_up_when_clipped_follow()
    {
        await using var shop = await PlayedIn();
        var order = Id(await OnlyOrder(shop));

        var part = await shop.PostJson($"/api/orders/{order}/ship", new { part = true });
        Assert.Equal([(3.5, 8), (4.0, 2)], Reeds(part.GetProperty("parcels")[0].GetProperty("reeds")));
        Assert.NotEqual("shipped", part.GetProperty("status").GetString());
        var tooMany = await shop.Send(HttpMethod.Post, "/api/drawer/clip", Clipped(cameUp: 4, spoiled: 1));
        await Refused(tooMany, System.Net.HttpStatusCode.UnprocessableEntity, "invalid-value");
        await shop.PostJson("/api/drawer/clip", Clipped(cameUp: 2, spoiled: 1));

        Assert.Equal("ready", (await OnlyOrder(shop)).GetProperty("status").GetString());
        var rest = await shop.PostJson($"/api/orders/{order}/ship", new { });
        Assert.Equal("shipped", rest.GetProperty("status").GetString());
        Assert.Equal([(3.5, 2)], Reeds(rest.GetProperty("parcels")[1].GetProperty("reeds")));
        Assert.Single(await Letters(shop, "part-shipped"));
        Assert.Single(await Letters(shop, "order-shipped"));
        Assert.Equal([(3.0, 3), (3.25, 1)], (await shop.GetJson("/api/drawer")).EnumerateArray().Select(Count));
    }

    private static object Clipped(int cameUp, int spoiled) =>
        new
        {
            model = "clarinet",
            from = 3.25,
            cameUp,
            spoiled,
        };

    private static (double, int)[] Reeds(JsonElement reeds) =>
        [
            .. reeds
                .EnumerateArray()
                .Select(r => (r.GetProperty("strength").GetDouble(), r.GetProperty("quantity").GetInt32()))
                .Order(),
        ];

    private static (double, int) Count(JsonElement reeds) =>
        (reeds.GetProperty("strength").GetDouble(), reeds.GetProperty("count").GetInt32());

    private static async Task<JsonElement> OnlyOrder(ShopHost shop) =>
        Assert.Single((await shop.GetJson("/api/orders")).GetProperty("items").EnumerateArray()).GetProperty("order");

    private static async Task Grade(ShopHost shop, bool final, params (double Strength, int Count)[] grades)
    {
        var batch = Assert.Single(await new ExampleMaker(shop).OpenBatches());
        await shop.PostJson(
            $"/api/batches/{batch}/grades",
            new { grades = grades.Select(grade => new { strength = grade.Strength, count = grade.Count }), final }
        );
    }

    private static async Task<ShopHost> PlayedIn()
    {
        var shop = await PlayingIn();
        await Grade(shop, final: false, (3, 3), (3.25, 2), (3.5, 9), (4, 3));
        await Grade(shop, final: true, (3, 3), (3.25, 4), (3.5, 8), (4, 2));
        return shop;
    }

    private static async Task<ShopHost> PlayingIn()
    {
        var shop = await ShopHost.Start();
        var settings = JsonSerializer.SerializeToNode(ExampleShop.Settings)!;
        settings["gradeSteps"] = "quarter";
        await shop.PutJson("/api/shop", settings);
        var model = JsonSerializer.SerializeToNode(Model)!;
        model["strengths"] = new JsonArray(3.0, 3.5, 4.0);
        await shop.PutJson("/api/models/clarinet", model);
        await shop.PostJson("/api/starting-state", Middle);
        return shop;
    }

    private static object Model =>
        ExampleModel.Of(
            ExampleModel.Step("profile", 60, dry: ExampleModel.Night()),
            ExampleModel.Step("play in", 30, check: "graded")
        );

    private static object Middle =>
        new
        {
            drawer = Array.Empty<object>(),
            shelf = Array.Empty<object>(),
            batches = new[]
            {
                new
                {
                    model = "clarinet",
                    blanks = 17,
                    nextStep = 2,
                    aim = 3.5,
                    lastWorkedOn = "2027-02-28",
                },
            },
            promises = new[]
            {
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
                    lines = new[] { Line(3.5, 10), Line(4, 2) },
                    shipBy = "2027-03-08",
                },
            },
        };

    private static object Line(double strength, int quantity) =>
        new
        {
            model = "clarinet",
            strength,
            quantity,
        };
}
