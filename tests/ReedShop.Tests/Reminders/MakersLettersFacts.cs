using System.Net;
using ReedShop.Tests.Messages;
using ReedShop.Tests.Workshop;

namespace ReedShop.Tests.Reminders;

/// <summary>New orders, low cane, what could not be delivered; what the maker chooses, and quiet hours.</summary>
public sealed class MakersLettersFacts
{
    private const string Deliver = "deliver-messages";

    [Fact]
    public async Task A_new_order_is_told_once()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop);

        await shop.Tick("new-orders");
        await shop.Tick("new-orders");

        var letter = Assert.Single(await MakersMail.Waiting(shop, "new-order"));
        Assert.StartsWith("New order 1: 2 reeds, to ship by ", letter.Title, StringComparison.Ordinal);
        Assert.Contains("  2 of 3½ (clarinet)\n", letter.Text, StringComparison.Ordinal);
        Assert.Equal("maker@example.org", letter.To);
        Assert.Null(letter.StopLink);
    }

    [Fact]
    public async Task Jobs_that_run_at_the_same_time_write_one_letter()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop);
        await Order(shop);

        await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => shop.Tick("new-orders"))));
        await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => shop.Tick("morning-reminder"))));

        Assert.Equal(2, (await MakersMail.Waiting(shop, "new-order")).Length);
        Assert.Single(await MakersMail.Waiting(shop, "day-list"));
    }

    [Fact]
    public async Task An_order_of_days_ago_is_no_news()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop);

        shop.Time.Advance(TimeSpan.FromDays(3));
        await shop.Tick("new-orders");

        Assert.Empty(await MakersMail.Waiting(shop, "new-order"));
    }

    [Fact]
    public async Task Cane_that_lasts_too_few_weeks_is_told_once_until_more_is_bought()
    {
        await using var shop = await ExampleReeds.NewShop(caneBlanks: 40);
        await shop.Tick("low-cane");
        Assert.Empty(await MakersMail.Waiting(shop, "low-cane"));

        // 20 blanks in eight weeks, 20 left: eight weeks more.
        await AtTheBench.Start(shop, 20);
        await shop.Tick("low-cane");
        Assert.Empty(await MakersMail.Waiting(shop, "low-cane"));

        // 24 in eight weeks, 16 left: five weeks, less than six.
        await AtTheBench.Start(shop, 4);
        await shop.Tick("low-cane");
        await shop.Tick("low-cane");
        var letter = Assert.Single(await MakersMail.Waiting(shop, "low-cane"));
        Assert.Equal("Cane for B-flat clarinet runs low", letter.Title);
        Assert.Contains("16 blanks are left", letter.Text, StringComparison.Ordinal);
        Assert.Contains("about 5 weeks", letter.Text, StringComparison.Ordinal);

        await shop.PostJson("/api/cane", LittleCane);
        await shop.Tick("low-cane");
        Assert.Equal(2, (await MakersMail.Waiting(shop, "low-cane")).Length);
    }

    [Fact]
    public async Task The_weeks_of_cane_are_the_makers_to_choose()
    {
        await using var shop = await ExampleReeds.NewShop(caneBlanks: 40);
        using var owner = await Visitor.Owner(shop);
        await AtTheBench.Start(shop, 20);

        await MakersMail.Choose(owner, caneWeeks: "9", wanted: ["low-cane"]);
        await shop.Tick("low-cane");

        Assert.Single(await MakersMail.Waiting(shop, "low-cane"));
    }

    [Fact]
    public async Task A_letter_that_was_given_up_is_told_once_and_not_while_nothing_gets_through()
    {
        await using var mail = new MailServer { Refuses = true };
        await using var shop = await ShopHost.Start(null, mail.Settings);
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        using var owner = await Visitor.Owner(shop);
        await MakersMail.Choose(owner, "00:00", "00:00", "6", "not-delivered");
        await MakersMail.Write(shop, "order-shipped", "order 12");
        for (var attempt = 0; attempt < 8; attempt++)
        {
            await shop.Tick(Deliver);
            shop.Time.Advance(TimeSpan.FromHours(5));
        }

        await shop.Tick("not-delivered");
        Assert.Empty(await MakersMail.Waiting(shop, "not-delivered"));

        mail.Refuses = false;
        await MakersMail.Write(shop, "order-shipped", "order 13");
        await shop.Tick(Deliver);
        await shop.Tick("not-delivered");
        await shop.Tick("not-delivered");
        var told = Assert.Single(await MakersMail.Waiting(shop, "not-delivered"));
        Assert.Equal("Not delivered to buyer@example.org: Thank you", told.Title);
        Assert.Contains("mailbox", told.Text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task In_quiet_hours_only_what_was_asked_for_goes_out()
    {
        await using var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.SettingsIn("Europe/Lisbon", "06:00"));
        MakersMail.SetTime(shop, 1, 21, 59);
        await MakersMail.Write(shop, "before", "order 1");
        await shop.Tick(Deliver);
        Assert.Equal(["before"], MakersMail.Sent(shop));

        MakersMail.SetTime(shop, 1, 22);
        await MakersMail.Write(shop, "shipped", "order 1");
        await MakersMail.Write(shop, "order-confirmed", "order 2", asked: true);
        await shop.Tick(Deliver);
        Assert.Equal(["before", "order-confirmed"], MakersMail.Sent(shop));

        MakersMail.SetTime(shop, 2, 6);
        await shop.Tick("morning-reminder");
        await shop.Tick(Deliver);
        Assert.Equal(["before", "order-confirmed", "day-list"], MakersMail.Sent(shop));

        MakersMail.SetTime(shop, 2, 7);
        await shop.Tick(Deliver);
        Assert.Equal(4, MakersMail.Sent(shop).Length);
        Assert.Contains("shipped", MakersMail.Sent(shop));
    }

    [Fact]
    public async Task Quiet_hours_go_by_the_shops_clock()
    {
        await using var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.SettingsIn("Australia/Lord_Howe"));
        // 21:45 and 22:15 on Lord Howe in March, which is 11 hours ahead.
        MakersMail.SetTime(shop, 1, 11, 15);
        await MakersMail.Write(shop, "shipped", "order 1");
        await shop.Tick(Deliver);
        Assert.Empty(MakersMail.Sent(shop));

        MakersMail.SetTime(shop, 1, 20, 0);
        await shop.Tick(Deliver);
        Assert.Equal(["shipped"], MakersMail.Sent(shop));
    }

    [Fact]
    public async Task A_kind_that_is_not_wanted_is_not_written()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);
        await Order(shop);

        var saved = await MakersMail.Choose(owner, wanted: ["day-list"]);
        await shop.Tick("new-orders");
        Assert.Equal(HttpStatusCode.SeeOther, saved.StatusCode);
        Assert.Empty(await MakersMail.Waiting(shop, "new-order"));

        await MakersMail.Choose(owner, wanted: ["day-list", "new-order"]);
        await shop.Tick("new-orders");
        Assert.Single(await MakersMail.Waiting(shop, "new-order"));
    }

    [Fact]
    public async Task What_cannot_be_used_is_refused_and_stays_typed()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var answer = await MakersMail.Choose(owner, quietFrom: "late", caneWeeks: "0", wanted: ["day-list"]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("value=\"late\"", page, StringComparison.Ordinal);
        Assert.Contains("is not a time of day", page, StringComparison.Ordinal);
        Assert.Contains("value=\"22:00\"", await owner.Read("/bench/letters"), StringComparison.Ordinal);
    }

    private static object LittleCane =>
        new
        {
            lot = "clarinet C",
            model = ExampleReeds.Clarinet,
            supplier = "an invented grower",
            harvest = 2024,
            seasonedFrom = "2027-06-01",
            blanks = 1,
        };

    private static async Task Order(ShopHost shop)
    {
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
    }
}
