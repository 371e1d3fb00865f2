using System.Net;
using System.Text.Json;
using static ReedShop.Tests.Watch.Promised;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Watch;

/// <summary>What is done for a promise that stands badly.</summary>
public sealed class RescueFacts
{
    [Fact]
    public async Task An_order_whose_batch_is_nearly_lost_is_told_what_would_help_and_how_much()
    {
        await using var shop = await Troubled();
        var order = await OnlyOrder(shop);

        var watch = await Watched(shop, order);

        Assert.True(watch.GetProperty("isAtRisk").GetBoolean());
        var chances = watch.GetProperty("rescues").EnumerateArray().Select(Chance).ToArray();
        Assert.NotEmpty(chances);
        Assert.Equal(chances.OrderDescending(), chances);
        Assert.All(chances, chance => Assert.True(chance >= Chance(watch)));
        Assert.Equal(
            1,
            watch.GetProperty("causes").EnumerateArray().Sum(cause => cause.GetProperty("share").GetDouble()),
            9
        );
    }

    [Fact]
    public async Task A_buyer_who_takes_another_strength_is_served_with_it()
    {
        await using var shop = await Troubled();
        var order = await OnlyOrder(shop);
        await Stock(shop, 3, 6);
        var ask = Rescues(await Watched(shop, order), "otherStrength")
            .Single(r => r.GetProperty("also").GetDouble() == 3);

        await shop.PostJson($"/api/orders/{order}/ask", Asking(3));
        using var buyer = new Visitor(shop);
        Assert.Contains("Would 3 do as well?", await buyer.Read($"/orders/{order}"), StringComparison.Ordinal);
        await buyer.PostFrom(
            $"/orders/{order}",
            $"/orders/{order}/strength",
            ("model", ExampleReeds.Clarinet),
            ("strength", "3½"),
            ("also", "3"),
            ("answer", "yes")
        );

        Assert.Equal(0.99, Chance(ask));
        Assert.Single(await Letters(shop, "strength-asked"));
        Assert.Contains(
            "takes 3 for 3½",
            Assert.Single(await Letters(shop, "strength-answered")).Text,
            StringComparison.Ordinal
        );
        Assert.Equal("ready", (await shop.GetJson($"/api/orders/{order}")).GetProperty("status").GetString());
    }

    [Fact]
    public async Task A_buyer_who_says_no_keeps_the_order_as_it_was_and_a_second_question_waits_for_the_first()
    {
        await using var shop = await Troubled();
        var order = await OnlyOrder(shop);
        await shop.PostJson($"/api/orders/{order}/ask", Asking(3));
        var second = await shop.Send(HttpMethod.Post, $"/api/orders/{order}/ask", Asking(4));
        await Refused(second, HttpStatusCode.Conflict, "wrong-stage");

        await shop.PostJson(
            $"/api/orders/{order}/strength",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                also = 3,
                accept = false,
            }
        );

        var line = (await shop.GetJson($"/api/orders/{order}")).GetProperty("lines")[0];
        Assert.False(line.TryGetProperty("also", out _));
        await shop.PostJson($"/api/orders/{order}/ask", Asking(4));
    }

    [Fact]
    public async Task Reeds_set_aside_from_the_drawer_are_the_orders_own()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = Id(await Order(shop, 3.5, 6));
        await LoseAllBut(shop, 6);
        await Stock(shop, 3.5, 3);
        var elsewhere = Rescues(await Watched(shop, order), "madeElsewhere")[0];
        var reeds = elsewhere.GetProperty("quantity").GetInt32();

        var wrong = await shop.Send(HttpMethod.Post, $"/api/orders/{order}/elsewhere", Wish(elsewhere, 99));
        await shop.PostJson($"/api/orders/{order}/elsewhere", Wish(elsewhere, reeds));

        Assert.Contains(
            "set 3 of 3½ (clarinet) aside from the drawer",
            elsewhere.GetProperty("change").GetString(),
            StringComparison.Ordinal
        );
        var drawer = Assert.Single((await shop.GetJson("/api/drawer")).EnumerateArray());
        Assert.Equal(3, drawer.GetProperty("spokenFor").GetInt32());
        await Refused(wrong, HttpStatusCode.UnprocessableEntity, "invalid-value");
    }

    /// <summary>The buyer takes a half strength either side, so that few blanks are enough.</summary>
    [Fact]
    public async Task What_is_done_is_what_was_shown()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var wish = System.Text.Json.JsonSerializer.SerializeToNode(ExampleReeds.Lines((3.5, 6)))!;
        wish["neighbours"] = 1;
        var quote = await shop.PostJson("/api/quotes", wish);
        var order = Id(await shop.PostJson("/api/orders", ExampleReeds.Order(Id(quote))));
        await LoseAllBut(shop, 3);
        var watch = await Watched(shop, order);
        var extra = Rescues(watch, "madeElsewhere").First(rescue => rescue.TryGetProperty("blanks", out _));
        var before = await Blanks(shop);

        var stale = await shop.Send(HttpMethod.Post, $"/api/orders/{order}/elsewhere", Seen(extra, 0));
        await Refused(stale, HttpStatusCode.PreconditionFailed, "changed-meanwhile");
        await shop.PostJson(
            $"/api/orders/{order}/elsewhere",
            Seen(extra, watch.GetProperty("factsVersion").GetInt64())
        );

        Assert.Equal(before + extra.GetProperty("blanks").GetInt32(), await Blanks(shop));
        Assert.Equal(Chance(extra), Chance(await Watched(shop, order)), 0.06);
    }

    [Fact]
    public async Task A_day_that_the_maker_closed_stays_closed()
    {
        await using var shop = await ShopHost.Start();
        var settings = System.Text.Json.JsonSerializer.SerializeToNode(ExampleShop.Settings)!;
        settings["otherDays"] = System.Text.Json.JsonSerializer.SerializeToNode(
            new[]
            {
                new
                {
                    date = "2027-03-02",
                    hours = Array.Empty<object>(),
                    reason = "concert",
                },
            }
        );
        await shop.PutJson("/api/shop", settings);

        var opened = await shop.Send(HttpMethod.Post, "/api/days/2027-03-02/longer", new { minutes = 60 });

        var problem = await Refused(opened, HttpStatusCode.Conflict, "wrong-stage");
        Assert.Contains("concert", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_day_opens_for_longer_and_a_closed_one_opens_at_the_usual_hour()
    {
        await using var shop = await ExampleReeds.NewShop();

        var tuesday = await shop.PostJson("/api/days/2027-03-02/longer", new { minutes = 60 });
        var sunday = await shop.PostJson("/api/days/2027-03-07/longer", new { minutes = 90 });
        var tooLong = await shop.Send(HttpMethod.Post, "/api/days/2027-03-02/longer", new { minutes = 600 });

        Assert.Equal("22:00", tuesday.GetProperty("hours")[0].GetProperty("to").GetString()![..5]);
        Assert.Equal("19:00", sunday.GetProperty("hours")[0].GetProperty("from").GetString()![..5]);
        var week = await shop.GetJson("/api/week?from=2027-03-01");
        Assert.Equal(
            [120, 180],
            week.GetProperty("days").EnumerateArray().Take(2).Select(day => day.GetProperty("openMinutes").GetInt32())
        );
        await Refused(tooLong, HttpStatusCode.UnprocessableEntity, "invalid-value");
    }

    [Fact]
    public async Task The_page_of_a_promise_does_what_it_offers()
    {
        await using var shop = await Troubled();
        var order = await OnlyOrder(shop);
        using var owner = await Visitor.Owner(shop);
        var page = $"/bench/orders/{order}/watch";
        var read = await owner.Read(page);
        Assert.Contains("What would help", read, StringComparison.Ordinal);
        Assert.Contains("When late", read, StringComparison.Ordinal);

        var version = (await Version(shop, order)).Trim('"');
        var stale = await owner.PostFrom(
            page,
            $"{page}/move",
            ("version", "0"),
            ("shipBy", "2027-06-03"),
            ("note", "kept")
        );
        var moved = await owner.PostFrom(
            page,
            $"{page}/move",
            ("version", version),
            ("shipBy", "2027-06-03"),
            ("note", "")
        );

        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.StatusCode);
        Assert.Contains(
            "value=\"kept\"",
            await stale.Content.ReadAsStringAsync(TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        Assert.Equal(HttpStatusCode.SeeOther, moved.StatusCode);
        Assert.Single(await Letters(shop, "date-moved"));
    }

    private static object Wish(JsonElement elsewhere, int quantity) =>
        new
        {
            model = ExampleReeds.Clarinet,
            strength = 3.5,
            quantity,
            batch = elsewhere.GetProperty("batch").GetString(),
        };

    private static object Seen(JsonElement extra, long factsVersion) =>
        new
        {
            model = ExampleReeds.Clarinet,
            strength = 3.5,
            quantity = extra.GetProperty("quantity").GetInt32(),
            batch = extra.TryGetProperty("batch", out var batch) ? batch.GetString() : null,
            factsVersion,
        };

    private static async Task<int> Blanks(ShopHost shop) =>
        (await shop.GetJson("/api/batches"))
            .GetProperty("items")
            .EnumerateArray()
            .Where(batch => batch.GetProperty("stage").GetString() is "planned" or "onBench")
            .Sum(batch => batch.GetProperty("blanks").GetInt32());

    private static object Asking(double also) =>
        new
        {
            model = ExampleReeds.Clarinet,
            strength = 3.5,
            also,
        };

    private static async Task<ShopHost> Troubled()
    {
        var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop, 3.5, 6);
        await LoseAllBut(shop, 1);
        return shop;
    }

    private static async Task<string> OnlyOrder(ShopHost shop) =>
        (await shop.GetJson("/api/orders")).GetProperty("items")[0].GetProperty("order").GetProperty("id").GetString()!;
}
