using System.Net;
using System.Text.Json.Nodes;
using static ReedShop.Tests.Watch.Promised;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Watch;

/// <summary>Slips and tricks that must cost no promise, no reed and no honest record.</summary>
public sealed class NoHarmFacts
{
    [Fact]
    public async Task A_drawer_miscounted_and_counted_right_serves_the_order_again()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Stock(shop, 3.5, 4);
        var order = Id(await Order(shop, 3.5, 4));

        await Stock(shop, 3.5, 1);
        Assert.NotEmpty(await new ExampleMaker(shop).OpenBatches());
        await Stock(shop, 3.5, 4);

        Assert.Equal("ready", (await shop.GetJson($"/api/orders/{order}")).GetProperty("status").GetString());
        Assert.Empty(await new ExampleMaker(shop).OpenBatches());
    }

    [Fact]
    public async Task An_unbegun_batch_is_called_off_when_all_its_reeds_are_taken_from_elsewhere()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = Id(await Order(shop, 3.5, 2));
        var batch = Assert.Single(await new ExampleMaker(shop).OpenBatches());
        await Stock(shop, 3.5, 2);

        await shop.PostJson(
            $"/api/orders/{order}/elsewhere",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                quantity = 2,
                batch,
            }
        );

        Assert.Equal("ready", (await shop.GetJson($"/api/orders/{order}")).GetProperty("status").GetString());
        Assert.Empty(await new ExampleMaker(shop).OpenBatches());
    }

    [Fact]
    public async Task Only_tested_reeds_are_clipped()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3,
                condition = "unplayed",
                count = 5,
            }
        );

        var clipped = await shop.Send(
            HttpMethod.Post,
            "/api/drawer/clip",
            new
            {
                model = ExampleReeds.Clarinet,
                from = 3,
                cameUp = 1,
            }
        );

        await Refused(clipped, HttpStatusCode.UnprocessableEntity, "invalid-value");
    }

    [Fact]
    public async Task An_order_cancelled_after_its_day_counts_as_not_kept_and_one_before_does_not_count()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Stock(shop, 3.5, 4);
        var (early, late) = (await Order(shop, 3.5, 2), await Order(shop, 3.5, 2));
        await shop.PostJson($"/api/orders/{Id(early)}/cancel", new { });
        After(shop, ExampleMaker.Day(late, "shipBy"));

        await shop.PostJson($"/api/orders/{Id(late)}/cancel", new { });

        var record = (await shop.GetJson("/api/promises-kept")).GetProperty("all");
        Assert.Equal((1, 0), (record.GetProperty("promises").GetInt32(), record.GetProperty("kept").GetInt32()));
    }

    [Fact]
    public async Task A_day_moved_there_and_back_counts_like_any_other()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Stock(shop, 3.5, 2);
        var order = await Order(shop, 3.5, 2);
        var first = ExampleMaker.Day(order, "shipBy");
        await ShopHost.Read(await Move(shop, Id(order), new DateOnly(2027, 3, 11)));
        await ShopHost.Read(await Move(shop, Id(order), first));
        await shop.PostJson($"/api/orders/{Id(order)}/ship", new { });

        After(shop, first);

        var record = (await shop.GetJson("/api/promises-kept")).GetProperty("all");
        Assert.Equal((1, 1), (record.GetProperty("promises").GetInt32(), record.GetProperty("kept").GetInt32()));
    }

    [Fact]
    public async Task A_promise_whose_day_is_over_cannot_leave_the_record_by_a_move()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Stock(shop, 3.5, 2);
        var order = await Order(shop, 3.5, 2);
        After(shop, ExampleMaker.Day(order, "shipBy"));

        await ShopHost.Read(await Move(shop, Id(order), new DateOnly(2027, 3, 11)));

        var record = (await shop.GetJson("/api/promises-kept")).GetProperty("all");
        Assert.Equal((1, 0), (record.GetProperty("promises").GetInt32(), record.GetProperty("kept").GetInt32()));
    }

    [Fact]
    public async Task A_version_that_cannot_be_read_is_no_version()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = Id(await Order(shop, 3.5, 2));
        var request = new HttpRequestMessage(HttpMethod.Post, $"/api/orders/{order}/move")
        {
            Content = System.Net.Http.Json.JsonContent.Create(new { shipBy = "2027-06-03" }),
        };
        request.Headers.TryAddWithoutValidation("If-Match", "0");

        var moved = await shop.Owner.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.PreconditionFailed, moved.StatusCode);
        Assert.Empty(await Letters(shop, "date-moved"));
    }

    [Theory]
    [InlineData("2027-03-01")]
    [InlineData("0001-01-01")]
    [InlineData("9999-12-29")]
    public async Task Only_days_of_the_plan_are_made_longer(string date)
    {
        await using var shop = await ExampleReeds.NewShop();

        var longer = await shop.Send(HttpMethod.Post, $"/api/days/{date}/longer", new { minutes = 60 });

        await Refused(longer, HttpStatusCode.UnprocessableEntity, "invalid-value");
    }

    [Fact]
    public async Task The_settings_can_be_sent_back_as_they_were_read_after_a_day_was_made_longer()
    {
        await using var shop = await ExampleReeds.NewShop();
        await shop.PostJson("/api/days/2027-03-02/longer", new { minutes = 60 });
        var read = await shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken);
        var settings = JsonNode.Parse(await read.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;

        await shop.PutJson("/api/shop", settings, read.Headers.ETag!.Tag);
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(3.5)]
    public async Task A_buyer_is_not_asked_for_what_makes_no_sense(double also)
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = Id(await Order(shop, 3.5, 2));

        var asked = await shop.Send(
            HttpMethod.Post,
            $"/api/orders/{order}/ask",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                also,
            }
        );

        await Refused(asked, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Empty(await Letters(shop, "strength-asked"));
    }

    /// <summary>It took a minute to answer once, for a day in 2900.</summary>
    [Fact]
    public async Task A_day_far_ahead_is_refused_at_once()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var wish = System.Text.Json.JsonSerializer.SerializeToNode(ExampleReeds.Lines((3.5, 2)))!;
        wish["needBy"] = "2900-01-01";

        var quote = await shop.Send(HttpMethod.Post, "/api/quotes", wish);

        await Refused(quote, HttpStatusCode.UnprocessableEntity, "invalid-value");
    }

    private static void After(ShopHost shop, DateOnly day) =>
        shop.Time.SetUtcNow(new DateTimeOffset(day.AddDays(1), new TimeOnly(9, 0), TimeSpan.Zero));
}
