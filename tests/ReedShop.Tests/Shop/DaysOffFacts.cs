using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using ReedShop.Tests.Workshop;
using static ReedShop.Tests.Shop.CalendarFile;

namespace ReedShop.Tests.Shop;

/// <summary>The page of days off in a shop in Lisbon; it is Monday 2027-03-01.</summary>
public sealed partial class DaysOffFacts
{
    private const string Address = "/bench/days-off";

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
    public async Task A_file_shows_what_it_takes_and_only_what_is_ticked_is_kept()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);
        await ExampleShop.StartTenBlanks(shop);
        var file = Of(
            Event("concert <of the year>", "DTSTART:20270301T183000", "DTEND:20270301T220000"),
            Event("choir", "DTSTART:20270302T190000", "DTEND:20270302T200000", "RRULE:FREQ=WEEKLY;COUNT=3"),
            Event("lesson", "DTSTART:20270303T100000", "DTEND:20270303T110000")
        );

        var look = await Upload(owner, file);
        Assert.Contains(
            "The file takes bench hours away 4 times until Tue 29 February 2028",
            look,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("concert <of", look, StringComparison.Ordinal);
        look = WebUtility.HtmlDecode(look);
        Assert.Contains("concert <of the year>", look, StringComparison.Ordinal);
        Assert.Contains("Mon 1 March 2027, 18:30–22:00", look, StringComparison.Ordinal);
        Assert.Contains("batch 1: soak, flatten", look, StringComparison.Ordinal);
        Assert.Contains("1 time takes nothing away", look, StringComparison.Ordinal);
        Assert.Empty(await OtherDays(shop));

        var ticks = Ticks(look);
        Assert.Equal(4, ticks.Length);
        var kept = await KeepFile(owner, look, file, [ticks[0], ticks[2]], series: true);
        Assert.Equal($"{Address}?changed=2", kept.Headers.Location?.ToString());
        Assert.Equal(["2027-03-01 0 concert <of the year>", "2027-03-09 1 choir"], await OtherDays(shop));

        var again = await Upload(owner, file);
        Assert.Contains("The file takes bench hours away 2 times", again, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_event_that_recurs_is_left_out_whole_by_its_own_tick()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);
        var file = Of(
            Event("concert", "DTSTART:20270303T183000", "DTEND:20270303T220000"),
            Event("choir", "DTSTART:20270302T190000", "DTEND:20270302T200000", "RRULE:FREQ=WEEKLY;COUNT=3")
        );
        var look = await Upload(owner, file);

        await KeepFile(owner, look, file, Ticks(look), series: false);

        Assert.Equal(["2027-03-03 0 concert"], await OtherDays(shop));
    }

    [Fact]
    public async Task A_file_that_cannot_be_read_is_refused_and_the_days_stay()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);

        using var form = await FileForm(owner, "not a calendar");
        var answer = await owner.Browser.PostAsync($"{Address}/file", form, Cancel);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.Contains("The file cannot be read", page, StringComparison.Ordinal);
        Assert.Contains("up to 1 MB and 2000 events", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Days_from_a_file_stand_in_the_settings_and_can_be_saved_there_unchanged()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);
        await Keep(
            shop,
            Of(
                Event("2nd night", "DTSTART:20270303T183000", "DTEND:20270303T220000"),
                Event("+1 guest", "DTSTART;VALUE=DATE:20270304")
            )
        );
        var before = await OtherDays(shop);
        var typed = (await Read(owner, "/bench/shop")).Split("name=\"otherDays\"")[1].Split('>', 2)[1].Split('<')[0];

        var saved = await owner.Post("/bench/shop", ExampleForm.With(("version", "3"), ("otherDays", typed)));

        Assert.Equal("2027-03-03 +parcels busy: 2nd night\n2027-03-04 busy: +1 guest", typed);
        Assert.Equal(HttpStatusCode.SeeOther, saved.StatusCode);
        Assert.Equal(before, await OtherDays(shop));
        Assert.True(
            (await shop.GetJson("/api/shop")).GetProperty("otherDays")[0].GetProperty("sendsParcels").GetBoolean()
        );
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

    private static async Task<Visitor> Open(ShopHost shop)
    {
        var owner = await Visitor.Owner(shop);
        await shop.PutJson("/api/shop", ExampleShop.Settings, "*");
        return owner;
    }

    private static async Task<string> Read(Visitor owner, string address) =>
        WebUtility.HtmlDecode(await owner.Read(address));

    private static async Task<string> Upload(Visitor owner, string file)
    {
        using var form = await FileForm(owner, file);
        var answer = await owner.Browser.PostAsync($"{Address}/file", form, Cancel);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync(Cancel);
    }

    private static async Task<MultipartFormDataContent> FileForm(Visitor owner, string file) =>
        new()
        {
            { new StringContent(await owner.FormToken(Address)), "__RequestVerificationToken" },
            { new ByteArrayContent(Encoding.UTF8.GetBytes(file)), "file", "busy.ics" },
        };

    private static async Task<HttpResponseMessage> KeepFile(
        Visitor owner,
        string look,
        string file,
        IEnumerable<string> ticks,
        bool series
    )
    {
        using var form = new MultipartFormDataContent
        {
            { new StringContent(await owner.FormToken(Address)), "__RequestVerificationToken" },
            { new StringContent(Version(look)), "version" },
            { new StringContent(file), "text" },
        };
        foreach (
            var (name, value) in ticks
                .Select(tick => ("time", tick))
                .Concat(series ? Series().Matches(look).Select(m => ("series", m.Groups["value"].Value)) : [])
        )
        {
            form.Add(new StringContent(value), name);
        }

        var kept = await owner.Browser.PostAsync($"{Address}/file/keep", form, Cancel);
        Assert.Equal(HttpStatusCode.SeeOther, kept.StatusCode);
        return kept;
    }

    private static string[] Ticks(string look) =>
        [.. Times().Matches(look).Select(match => match.Groups["value"].Value)];

    private static string Version(string page) => VersionField().Match(page).Groups["value"].Value;

    private static async Task<string[]> OtherDays(ShopHost shop) =>
        [
            .. (await shop.GetJson("/api/shop"))
                .GetProperty("otherDays")
                .EnumerateArray()
                .Select(day =>
                    $"{day.GetProperty("date")} {day.GetProperty("hours").GetArrayLength()} {day.GetProperty("reason")}"
                ),
        ];

    [GeneratedRegex(
        "name=\"version\" value=\"(?<value>[0-9]+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex VersionField();

    [GeneratedRegex(
        "name=\"time\" value=\"(?<value>[^\"]+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex Times();

    [GeneratedRegex(
        "name=\"series\" value=\"(?<value>[^\"]+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex Series();
}
