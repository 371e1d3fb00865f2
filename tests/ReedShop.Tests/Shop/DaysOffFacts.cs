using System.Net;
using ReedShop.Tests.Workshop;
using static ReedShop.Tests.Shop.DaysOffPage;

namespace ReedShop.Tests.Shop;

/// <summary>Days with other hours typed in on their page.</summary>
public sealed class DaysOffFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_holiday_is_looked_at_kept_shown_as_one_line_and_removed()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);

        var look = await Read(owner, $"{Address}?first=2027-03-08&last=2027-03-12&reason=holiday&open=no");
        Assert.Contains("5 days would change", look, StringComparison.Ordinal);
        Assert.Contains("closed, no parcels leave (a ship day now)", look, StringComparison.Ordinal);
        Assert.Empty(await OtherDays(shop));

        var kept = await owner.Post(
            Address,
            ("version", Version(look)),
            ("first", "2027-03-08"),
            ("last", "2027-03-12"),
            ("reason", "holiday"),
            ("open", "no")
        );
        Assert.Equal(
            (HttpStatusCode.SeeOther, $"{Address}?changed=5"),
            (kept.StatusCode, kept.Headers.Location?.ToString())
        );
        Assert.Equal(5, (await OtherDays(shop)).Length);
        var list = await Read(owner, Address);
        Assert.Contains("Mon 8 March – Fri 12 March 2027", list, StringComparison.Ordinal);

        var removed = await owner.PostFrom(
            Address,
            $"{Address}/remove",
            ("version", Version(list)),
            ("first", "2027-03-08"),
            ("last", "2027-03-12")
        );
        Assert.Equal(HttpStatusCode.SeeOther, removed.StatusCode);
        Assert.Empty(await OtherDays(shop));
    }

    [Fact]
    public async Task An_extra_morning_has_hours_of_its_own()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);

        await owner.Post(
            Address,
            ("version", Version(await Read(owner, $"{Address}?first=2027-03-07"))),
            ("first", "2027-03-07"),
            ("reason", "extra morning"),
            ("open", "yes"),
            ("hours", "9:00-12:00")
        );

        Assert.Equal(["2027-03-07 1 extra morning"], await OtherDays(shop));
    }

    [Theory]
    [InlineData("first=2027-02-27", "The first day lies outside the coming year.")]
    [InlineData("first=tomorrow", "“tomorrow” is not a date.")]
    [InlineData("first=2027-03-08&last=2027-03-07", "The last day lies before the first, or too far ahead.")]
    [InlineData("first=2027-03-08&open=yes", "The hours are missing.")]
    [InlineData("first=2027-03-08&open=yes&hours=21:00-19:00", "“21:00-19:00” ends before it starts, or overlaps.")]
    public async Task Days_that_cannot_be_taken_are_refused_and_stay_typed(string typed, string reason)
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);

        var answer = await owner.Get($"{Address}?{typed}&reason=concert");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Contains(reason, page, StringComparison.Ordinal);
        Assert.Contains("value=\"concert\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Days_looked_at_in_an_older_shop_are_shown_again_and_not_kept()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);
        var version = Version(await Read(owner, $"{Address}?first=2027-03-08"));
        await shop.PutJson("/api/shop", ExampleShop.Settings, "*");

        var stale = await owner.Post(Address, ("version", version), ("first", "2027-03-08"));

        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.StatusCode);
        var page = WebUtility.HtmlDecode(await stale.Content.ReadAsStringAsync(Cancel));
        Assert.Contains("1 day would change", page, StringComparison.Ordinal);
        Assert.Empty(await OtherDays(shop));
        var again = await owner.Post(Address, ("version", Version(page)), ("first", "2027-03-08"));
        Assert.Equal(HttpStatusCode.SeeOther, again.StatusCode);
    }

    [Fact]
    public async Task The_planned_work_of_a_day_is_shown_before_it_is_closed_and_moves_when_it_is()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);
        await ExampleShop.StartTenBlanks(shop);
        var batch = (await shop.GetJson("/api/batches")).GetProperty("items")[0].GetProperty("id").GetString()!;
        Assert.Equal("2027-03-01", await AtTheBench.NextDay(shop, batch));

        var look = await Read(owner, $"{Address}?first=2027-03-01&reason=ill");
        Assert.Contains("1 planned sitting stands on these days.", look, StringComparison.Ordinal);
        Assert.Contains("batch 1: soak, flatten", look, StringComparison.Ordinal);

        await owner.Post(Address, ("version", Version(look)), ("first", "2027-03-01"), ("reason", "ill"));
        await shop.Tick("plan-sweep");
        Assert.Equal("2027-03-02", await AtTheBench.NextDay(shop, batch));
    }

    [Fact]
    public async Task The_page_is_reached_from_the_week_and_the_settings_and_only_by_the_owner()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);
        using var guest = new Visitor(shop);

        foreach (var from in new[] { "/bench/week", "/bench/shop" })
        {
            Assert.Contains($"href=\"{Address}\"", await Read(owner, from), StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.Redirect, (await guest.Get(Address)).StatusCode);
    }
}
