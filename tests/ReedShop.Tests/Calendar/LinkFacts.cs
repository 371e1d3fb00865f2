using System.Net;
using System.Net.Http.Headers;
using ReedShop.Tests.Workshop;
using static ReedShop.Tests.Calendar.Subscriber;

namespace ReedShop.Tests.Calendar;

/// <summary>The secret link to the plan: who has it, how long it holds, what asking for it does.</summary>
public sealed class LinkFacts
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

    private static string SecretOf(string link) => link["/calendar/".Length..^".ics".Length];

    private static Task<HttpResponseMessage> Get(ShopHost shop, string link, EntityTagHeaderValue? tag) =>
        ShopHost.Send(shop.Guest, HttpMethod.Get, link, null, ("If-None-Match", tag!.ToString()));
}
