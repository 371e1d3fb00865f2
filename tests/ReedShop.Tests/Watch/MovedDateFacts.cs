using System.Net;
using static ReedShop.Tests.Watch.Promised;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Watch;

/// <summary>An order of six whose batch is nearly lost on the first evening.</summary>
public sealed class MovedDateFacts
{
    [Fact]
    public async Task The_maker_is_told_once_that_a_promise_is_at_risk_and_the_buyer_nothing()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop, 3.5, 6);
        await Draw(shop);
        Assert.Empty(await Letters(shop, "promise-at-risk"));

        await LoseAllBut(shop, 1);
        await Draw(shop);
        await Stock(shop, 4, 1);
        await Draw(shop);

        var letter = Assert.Single(await Letters(shop, "promise-at-risk"));
        Assert.Equal("maker@example.org", letter.To);
        Assert.Contains("As the bench stands it leaves by then", letter.Text, StringComparison.Ordinal);
        Assert.Contains("A new date would be", letter.Text, StringComparison.Ordinal);
        Assert.Contains("/watch", letter.Text, StringComparison.Ordinal);
        Assert.Empty(await Letters(shop, "date-moved"));
    }

    [Fact]
    public async Task A_moved_date_is_told_in_one_message_and_no_replan_sends_another()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = await Order(shop, 3.5, 6);
        await LoseAllBut(shop, 1);
        var first = ExampleMaker.Day(order, "shipBy");
        var day = ExampleMaker.Day((await Watched(shop, Id(order))).GetProperty("newDate"), "shipBy");
        Assert.True(day > first);

        var moved = await ShopHost.Read(await Move(shop, Id(order), day, "The cane was worse than it looked."));
        for (var night = 1; night <= 5; night++)
        {
            shop.Time.SetUtcNow(ShopHost.Monday.AddDays(night));
            await shop.Tick("plan-sweep");
            await Draw(shop);
        }

        Assert.Equal(day, ExampleMaker.Day(moved, "shipBy"));
        Assert.Equal(first, ExampleMaker.Day(moved, "firstShipBy"));
        var letter = Assert.Single(await Letters(shop, "date-moved"));
        Assert.Equal("ana@example.org", letter.To);
        Assert.Contains($"It will ship by {day:dddd d MMMM yyyy}", letter.Text, StringComparison.Ordinal);
        Assert.Contains("The cane was worse than it looked.", letter.Text, StringComparison.Ordinal);
        Assert.Contains($"/orders/{Id(order)}", letter.Text, StringComparison.Ordinal);
        Assert.Equal(day, ExampleMaker.Day(await shop.GetJson($"/api/orders/{Id(order)}"), "shipBy"));
    }

    [Fact]
    public async Task A_promise_at_risk_that_moves_counts_as_broken_and_a_day_of_choice_does_not_count()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var forced = await Order(shop, 3.5, 6);
        await LoseAllBut(shop, 1);
        var promised = ExampleMaker.Day(forced, "shipBy");
        await ShopHost.Read(await Move(shop, Id(forced), NextShipDay(promised.AddDays(30))));
        await Stock(shop, 4, 2);
        var chosen = await Order(shop, 4, 2);
        await ShopHost.Read(await Move(shop, Id(chosen), NextShipDay(ExampleMaker.Day(chosen, "shipBy").AddDays(3))));

        shop.Time.SetUtcNow(new DateTimeOffset(promised.AddDays(1), new TimeOnly(9, 0), TimeSpan.Zero));

        var record = (await shop.GetJson("/api/promises-kept")).GetProperty("all");
        Assert.Equal(1, record.GetProperty("promises").GetInt32());
        Assert.Equal(0, record.GetProperty("kept").GetInt32());
    }

    [Fact]
    public async Task A_buyer_who_is_told_of_a_new_date_waits_asks_or_cancels()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = await Order(shop, 3.5, 6);
        using var buyer = new Visitor(shop);
        var page = $"/orders/{Id(order)}";
        Assert.DoesNotContain("The date has moved", await buyer.Read(page), StringComparison.Ordinal);
        var early = await shop.Send(HttpMethod.Post, $"/api{page}/reply", new { reply = "wait" });
        await Refused(early, HttpStatusCode.Conflict, "wrong-stage");
        await ShopHost.Read(await Move(shop, Id(order), NextShipDay(ExampleMaker.Day(order, "shipBy").AddDays(7))));
        Assert.Contains("The date has moved", await buyer.Read(page), StringComparison.Ordinal);

        var asked = await buyer.PostFrom(page, $"{page}/reply", ("reply", "change"), ("note", "Three would do."));

        Assert.Equal(HttpStatusCode.SeeOther, asked.StatusCode);
        Assert.Contains("You answered: change", await buyer.Read(page), StringComparison.Ordinal);
        var told = Assert.Single(await Letters(shop, "moved-answered"));
        Assert.Equal("maker@example.org", told.To);
        Assert.Contains("Three would do.", told.Text, StringComparison.Ordinal);
        await buyer.PostFrom(page, $"{page}/reply", ("reply", "cancel"), ("note", ""));
        var cancelled = await shop.GetJson($"/api/orders/{Id(order)}");
        Assert.Equal("cancelled", cancelled.GetProperty("status").GetString());
    }

    [Fact]
    public async Task A_day_that_will_hardly_be_kept_is_promised_only_by_a_maker_who_insists()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = await Order(shop, 3.5, 6);
        var thursday = new DateOnly(2027, 3, 4);

        var doubted = await Move(shop, Id(order), thursday);
        var problem = await Refused(doubted, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Contains("about 0 in 100 only", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.Empty(await Letters(shop, "date-moved"));
        var insisted = await shop.Send(
            HttpMethod.Post,
            $"/api/orders/{Id(order)}/move",
            new { shipBy = thursday, anyway = true },
            [("If-Match", await Version(shop, Id(order)))]
        );

        Assert.Equal(thursday, ExampleMaker.Day(await ShopHost.Read(insisted), "shipBy"));
        Assert.Contains(
            "to be ready sooner",
            Assert.Single(await Letters(shop, "date-moved")).Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_date_on_which_no_parcel_leaves_or_that_has_passed_cannot_be_promised()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = await Order(shop, 3.5, 6);

        var tuesday = await Refused(
            await Move(shop, Id(order), new DateOnly(2027, 6, 1)),
            HttpStatusCode.UnprocessableEntity,
            "invalid-value"
        );
        var past = await Refused(
            await Move(shop, Id(order), new DateOnly(2027, 2, 25)),
            HttpStatusCode.UnprocessableEntity,
            "invalid-value"
        );
        var unseen = await shop.Send(HttpMethod.Post, $"/api/orders/{Id(order)}/move", new { shipBy = "2027-06-03" });

        Assert.Contains("2027-06-03", tuesday.GetProperty("allowed").GetString(), StringComparison.Ordinal);
        Assert.Contains("2027-03-04", past.GetProperty("allowed").GetString(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.PreconditionRequired, unseen.StatusCode);
        Assert.Empty(await Letters(shop, "date-moved"));
    }

    /// <summary>Parcels leave on Mondays and Thursdays.</summary>
    private static DateOnly NextShipDay(DateOnly day)
    {
        while (day.DayOfWeek is not (DayOfWeek.Monday or DayOfWeek.Thursday))
        {
            day = day.AddDays(1);
        }

        return day;
    }
}
