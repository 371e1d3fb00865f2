using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Storage;
using ReedShop.Tests.Workshop;

namespace ReedShop.Tests.Calendar;

/// <summary>The feed over HTTP. Numbers in brackets are sections of RFC 5545.</summary>
public sealed partial class CalendarFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_link_is_shown_once_and_opens_the_feed_to_whoever_has_it()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        Assert.Contains("Make a link", await owner.Read("/bench/calendar"), StringComparison.Ordinal);

        var link = await Subscribe(owner);

        var answer = await shop.Guest.GetAsync(link, Cancel);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("text/calendar; charset=utf-8", answer.Content.Headers.ContentType!.ToString());
        var page = await owner.Read("/bench/calendar");
        Assert.DoesNotContain(link, page, StringComparison.Ordinal);
        Assert.Contains("Make a new link", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_link_ends_the_old_one_and_an_ended_one_opens_nothing()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var first = await Subscribe(owner);

        var second = await Subscribe(owner);
        Assert.NotEqual(first, second);
        await ShopHost.ReadProblem(await shop.Guest.GetAsync(first, Cancel), HttpStatusCode.NotFound, "not-found");
        Assert.Equal(HttpStatusCode.OK, (await shop.Guest.GetAsync(second, Cancel)).StatusCode);

        await owner.PostFrom("/bench/calendar", "/bench/calendar/end");
        Assert.Equal(HttpStatusCode.NotFound, (await shop.Guest.GetAsync(second, Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await shop.Guest.GetAsync("/calendar/.ics", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Nobody_but_the_owner_makes_a_link()
    {
        await using var shop = await ExampleReeds.NewShop();
        (await Visitor.Owner(shop)).Dispose();
        using var stranger = new Visitor(shop);

        var answer = await stranger.Get("/bench/calendar");

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.StartsWith("/sign-in", answer.Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Neither_the_log_nor_the_database_tells_the_link()
    {
        await using var shop = await ShopHost.Start(null, ("Serilog:MinimumLevel:Default", "Debug"));
        using var owner = await Visitor.Owner(shop);
        var link = await Subscribe(owner);
        await shop.Guest.GetAsync(link, Cancel);
        await shop.Restart();

        var secret = SecretOf(link);
        foreach (var file in Directory.GetFiles(shop.Folder, "*", SearchOption.AllDirectories))
        {
            if (file.EndsWith(".lock", StringComparison.Ordinal))
            {
                continue;
            }

            await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            var text = await new StreamReader(stream, System.Text.Encoding.Latin1).ReadToEndAsync(Cancel);
            Assert.DoesNotContain(secret, text, StringComparison.OrdinalIgnoreCase);
        }

        Assert.Equal(HttpStatusCode.OK, (await shop.Guest.GetAsync(link, Cancel)).StatusCode);
    }

    // RFC 9110, 13.1.2: If-None-Match with the tag of what is there is answered 304 without a body.
    [Fact]
    public async Task An_unchanged_feed_is_not_sent_again()
    {
        await using var shop = await ExampleReeds.NewShop();
        await AtTheBench.Start(shop, 5);
        using var owner = await Visitor.Owner(shop);
        var link = await Subscribe(owner);
        var first = await shop.Guest.GetAsync(link, Cancel);

        shop.Time.Advance(TimeSpan.FromMinutes(40));
        await Upkeep(shop);
        var again = await Get(shop, link, first.Headers.ETag);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Empty(await again.Content.ReadAsByteArrayAsync(Cancel));

        await AtTheBench.Start(shop, 5);
        await Upkeep(shop);
        Assert.Equal(HttpStatusCode.OK, (await Get(shop, link, first.Headers.ETag)).StatusCode);
    }

    [Fact]
    public async Task Reading_the_feed_changes_nothing()
    {
        await using var shop = await ExampleReeds.NewShop();
        await AtTheBench.Start(shop, 5);
        using var owner = await Visitor.Owner(shop);
        var link = await Subscribe(owner);
        var before = await Read(shop, link);

        await AtTheBench.Start(shop, 5);
        Assert.Equal(before.Bytes, (await Read(shop, link)).Bytes);

        await Upkeep(shop);
        Assert.NotEqual(before.Bytes, (await Read(shop, link)).Bytes);
    }

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

    private static async Task<string> Subscribe(Visitor owner)
    {
        var made = await owner.Post("/bench/calendar");
        Assert.True(made.Headers.CacheControl!.NoStore);
        return Link().Match(await made.Content.ReadAsStringAsync(Cancel)).Value;
    }

    private static string SecretOf(string link) => link["/calendar/".Length..^".ics".Length];

    private static async Task<Feed> Read(ShopHost shop, string link) =>
        new(await shop.Guest.GetByteArrayAsync(link, Cancel));

    private static Task<HttpResponseMessage> Get(ShopHost shop, string link, EntityTagHeaderValue? tag) =>
        ShopHost.Send(shop.Guest, HttpMethod.Get, link, null, ("If-None-Match", tag!.ToString()));

    private static async Task Upkeep(ShopHost shop)
    {
        await shop.Tick("plan-sweep");
        await shop.Tick("keep-calendar");
    }

    private static async Task<string> FirstSitting(ShopHost shop) =>
        (await Sittings(shop)).First(row => row.BatchNumber == "1").Id;

    private static async Task<string> LastSitting(ShopHost shop, string batch) =>
        (await Sittings(shop)).Last(row => row.BatchNumber == batch).Id;

    private static async Task<List<(string Id, string BatchNumber)>> Sittings(ShopHost shop)
    {
        var sittings = new List<(string, string)>();
        foreach (var from in new[] { "2027-03-01", "2027-03-08", "2027-03-15" })
        {
            var week = await shop.GetJson($"/api/week?from={from}");
            sittings.AddRange(
                week.GetProperty("days")
                    .EnumerateArray()
                    .SelectMany(day => day.GetProperty("sittings").EnumerateArray())
                    .Select(s => (s.GetProperty("id").GetString()!, s.GetProperty("batchNumber").GetString()!))
            );
        }

        return sittings;
    }

    private static async Task Move(ShopHost shop, string sitting, string date)
    {
        var week = await shop.Owner.GetAsync("/api/week", Cancel);
        var moved = await shop.Send(
            HttpMethod.Post,
            $"/api/sittings/{sitting}/move",
            new { date },
            ("If-Match", week.Headers.ETag!.ToString())
        );
        await ShopHost.Read(moved);
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

    [GeneratedRegex("/calendar/[0-9a-f]{32}\\.ics", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Link();
}
