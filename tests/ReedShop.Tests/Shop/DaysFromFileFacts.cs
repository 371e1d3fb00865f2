using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using static ReedShop.Tests.Shop.CalendarFile;
using static ReedShop.Tests.Shop.DaysOffPage;

namespace ReedShop.Tests.Shop;

/// <summary>Days with other hours taken from a calendar file on the page of days off.</summary>
public sealed partial class DaysFromFileFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

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
            Concert,
            Event("choir", "DTSTART:20270302T190000", "DTEND:20270302T200000", "RRULE:FREQ=WEEKLY;COUNT=3")
        );
        var look = await Upload(owner, file);

        await KeepFile(owner, look, file, Ticks(look), series: false);

        Assert.Equal(["2027-03-03 0 concert"], await OtherDays(shop));
    }

    [Fact]
    public async Task A_broken_event_is_listed_with_its_reason_before_the_good_ones_are_kept()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Open(shop);
        var file = Of(Event("sometimes", "DTSTART:20270302T190000", "RRULE:FREQ=SOMETIMES"), Concert);

        var look = await Upload(owner, file);
        await KeepFile(owner, look, file, Ticks(look), series: true);

        Assert.Contains("1 event could not be read, and nothing is taken for it:", look, StringComparison.Ordinal);
        Assert.Contains("<li>sometimes: ", look, StringComparison.Ordinal);
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

    [GeneratedRegex(
        "name=\"time\" value=\"(?<value>[^\"]+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex Times();

    [GeneratedRegex(
        "name=\"series\" value=\"(?<value>[^\"]+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex Series();
}
