using System.Globalization;
using ReedShop.Tests.Workshop;
using static ReedShop.Tests.Calendar.SittingsInPlan;
using static ReedShop.Tests.Calendar.Subscriber;

namespace ReedShop.Tests.Calendar;

/// <summary>What the feed says as the plan goes on. Numbers in brackets are sections of RFC 5545.</summary>
public sealed class CalendarFacts
{
    [Fact]
    public async Task A_sitting_has_the_clock_times_of_the_day_list_in_the_shops_zone()
    {
        await using var shop = await ExampleReeds.NewShop();
        await AtTheBench.Start(shop, 5);
        using var owner = await Visitor.Owner(shop);
        var feed = await Read(shop, await Subscribe(owner));

        var day = await shop.GetJson("/api/day/2027-03-01");
        var lines = day.GetProperty("lines").EnumerateArray().ToArray();
        var sitting = feed.Titled("batch 1").First();
        Assert.Equal("Europe/Lisbon", sitting.DtStart!.TzId);
        Assert.Equal($"2027-03-01 {Clock(lines[0], "start")}", Feed.Written(sitting.DtStart.Value));
        Assert.Equal($"2027-03-01 {Clock(lines[^1], "end")}", Feed.Written(sitting.DtEnd!.Value));
        Assert.Contains("5 blanks", sitting.Description, StringComparison.Ordinal);
        Assert.Equal($"{shop.Address}bench/today?date=2027-03-01", sitting.Url!.ToString());
    }

    [Fact]
    public async Task Beyond_a_fortnight_a_sitting_stands_for_its_day()
    {
        await using var shop = await ExampleReeds.NewShop();
        await AtTheBench.Start(shop, 5);
        using var owner = await Visitor.Owner(shop);
        var link = await Subscribe(owner);
        var sitting = await FirstSitting(shop);
        await Move(shop, sitting, "2027-03-22");
        await Upkeep(shop);

        Assert.False((await Read(shop, link)).Named(sitting).DtStart!.HasTime);

        shop.Time.Advance(TimeSpan.FromDays(8));
        await Upkeep(shop);
        Assert.True((await Read(shop, link)).Named(sitting).DtStart!.HasTime);
    }

    // (3.8.7.4) SEQUENCE: "monotonically increments when a significant revision is made"; (3.8.4.7) UID is persistent.
    [Fact]
    public async Task The_sequence_rises_for_what_moved_and_for_nothing_else()
    {
        await using var shop = await ExampleReeds.NewShop();
        await AtTheBench.Start(shop, 5);
        await AtTheBench.Start(shop, 5);
        using var owner = await Visitor.Owner(shop);
        var link = await Subscribe(owner);
        var before = (await Read(shop, link)).Told();
        Assert.All(before.Values, told => Assert.Equal((0, "CONFIRMED"), (told.Sequence, told.Status)));
        var sitting = await FirstSitting(shop);

        await Move(shop, sitting, "2027-03-09");
        await Upkeep(shop);
        await shop.Restart();
        await Upkeep(shop);

        var after = await Read(shop, link);
        Assert.Equal(
            "2027-03-09",
            DateOnly
                .FromDateTime(after.Named(sitting).DtStart!.Value)
                .ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
        );
        Assert.Equal(1, after.Named(sitting).Sequence);
        Assert.Superset(before.Keys.ToHashSet(), after.Told().Keys.ToHashSet());
        Assert.All(
            after.Told().Where(told => before.TryGetValue(told.Key, out var old) && old.Start == told.Value.Start),
            told => Assert.Equal(0, told.Value.Sequence)
        );
    }

    [Fact]
    public async Task Todays_times_do_not_creep_along_with_the_clock()
    {
        await using var shop = await ExampleReeds.NewShop();
        var batch = await AtTheBench.Start(shop, 5);
        using var owner = await Visitor.Owner(shop);
        var link = await Subscribe(owner);
        var before = (await Read(shop, link)).Titled("batch 1").First();

        shop.Time.SetUtcNow(ShopHost.Monday.AddHours(10.5));
        await AtTheBench.Record(shop, batch, 1, AtTheBench.Kept(5));
        await Upkeep(shop);

        var after = (await Read(shop, link)).Titled("batch 1").First();
        Assert.Equal((before.DtStart!.Value, before.Sequence), (after.DtStart!.Value, after.Sequence));
    }

    // (3.8.1.11) STATUS:CANCELLED marks what does not take place.
    [Fact]
    public async Task What_was_done_stays_and_what_was_dropped_is_cancelled_for_a_month()
    {
        await using var shop = await ExampleReeds.NewShop();
        var done = await AtTheBench.Start(shop, 5);
        await AtTheBench.Start(shop, 5);
        using var owner = await Visitor.Owner(shop);
        var link = await Subscribe(owner);
        var (today, dropped) = ((await Read(shop, link)).Titled("batch 1").First(), await LastSitting(shop, "2"));

        await WorkToday(shop, done);
        await Drop(shop, dropped);
        await Upkeep(shop);

        var feed = await Read(shop, link);
        Assert.Equal("CONFIRMED", feed.Events.Single(e => e.Uid == today.Uid).Status);
        var gone = feed.Named(dropped);
        Assert.Equal(("CANCELLED", 1), (gone.Status!, gone.Sequence));
        shop.Time.Advance(TimeSpan.FromDays(31));
        Assert.DoesNotContain((await Read(shop, link)).Events, e => e.Uid == gone.Uid);
    }

    [Fact]
    public async Task An_order_stands_on_its_ship_day_without_the_buyers_name()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        using var owner = await Visitor.Owner(shop);

        var feed = await Read(shop, await Subscribe(owner));

        var parcel = feed.Named("order-1");
        Assert.False(parcel.DtStart!.HasTime);
        Assert.Equal(
            order.GetProperty("shipBy").GetString(),
            parcel.DtStart.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
        );
        Assert.Contains("2 reeds", parcel.Description, StringComparison.Ordinal);
        Assert.DoesNotContain("Ana", feed.Text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(order.GetProperty("id").GetString()!, feed.Text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Nights_on_the_rack_are_told_on_demand()
    {
        await using var shop = await ExampleReeds.NewShop();
        await AtTheBench.Start(shop, 5);
        using var owner = await Visitor.Owner(shop);
        var link = await Subscribe(owner);
        Assert.Empty((await Read(shop, link)).Titled("On the rack"));

        await owner.PostFrom("/bench/calendar", "/bench/calendar/nights", ("nights", "on"));

        var feed = await Read(shop, link);
        var night = feed.Titled("On the rack: batch 1").First();
        Assert.Equal("2027-03-01", night.DtStart!.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        Assert.Contains(feed.Titled("batch 1: "), e => e.DtStart!.Date == night.DtEnd!.Date);
    }

    private static async Task WorkToday(ShopHost shop, string batch)
    {
        shop.Time.SetUtcNow(ShopHost.Monday.AddHours(11));
        var today = await shop.GetJson("/api/day/2027-03-01");
        foreach (var line in today.GetProperty("lines").EnumerateArray())
        {
            if (line.GetProperty("batch").GetString() == batch)
            {
                await AtTheBench.Record(shop, batch, line.GetProperty("step").GetInt32(), AtTheBench.Kept(5));
            }
        }
    }

    /// <summary>All blanks of its batch are rejected at the first step: what was planned for later does not take place.</summary>
    private static async Task Drop(ShopHost shop, string sitting)
    {
        var batch = sitting[..32];
        await AtTheBench.Record(shop, batch, 1, AtTheBench.Kept(0, ("crack", 5)));
    }

    private static string Clock(System.Text.Json.JsonElement line, string name) =>
        line.GetProperty(name).GetString()![..5];
}
