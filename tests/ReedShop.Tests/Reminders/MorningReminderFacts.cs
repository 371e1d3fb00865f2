using System.Globalization;
using MimeKit;

namespace ReedShop.Tests.Reminders;

public sealed class MorningReminderFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_day_list_comes_once_at_the_shops_hour_however_often_anything_runs()
    {
        await using var shop = await Open("2027-03-01 06:59", ExampleShop.Settings);
        await ExampleShop.StartTenBlanks(shop);

        await Tick(shop);
        Assert.Empty(await Letters(shop));
        shop.Time.Advance(TimeSpan.FromMinutes(1));
        await Tick(shop);
        await Tick(shop);
        await shop.Restart();
        await Tick(shop);

        var letter = Assert.Single(await Letters(shop));
        Assert.Equal("maker@example.org", letter.To.Mailboxes.Single().Address);
    }

    [Fact]
    public async Task The_letter_says_what_when_and_what_to_mind()
    {
        await using var shop = await Open("2027-03-01 07:00", ExampleShop.Settings);
        await ExampleShop.StartTenBlanks(shop);

        await Tick(shop);

        var letter = Assert.Single(await Letters(shop));
        Assert.StartsWith(
            "On the bench Monday 1 March 2027: 2 steps, 19:00 to ",
            letter.Subject,
            StringComparison.Ordinal
        );
        Assert.Contains("soak, 10 blanks (clarinet)", letter.TextBody, StringComparison.Ordinal);
        Assert.Contains("lay out first: 5 min", letter.TextBody, StringComparison.Ordinal);
        Assert.Contains("in the water until 19:25 at least", letter.TextBody, StringComparison.Ordinal);
        Assert.Contains("count: kept, again, rejected", letter.TextBody, StringComparison.Ordinal);
        Assert.Contains("caution: Dust: wear the mask.", letter.TextBody, StringComparison.Ordinal);
        Assert.Contains("Cane and sanding dust", letter.TextBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_service_that_slept_through_the_hour_sends_it_when_it_wakes()
    {
        await using var shop = await Open("2027-03-01 23:59", ExampleShop.Settings);

        await Tick(shop);

        Assert.Single(await Letters(shop));
    }

    [Fact]
    public async Task A_day_that_is_over_is_not_sent_after_midnight()
    {
        await using var shop = await Open("2027-03-02 00:01", ExampleShop.Settings);

        await Tick(shop);

        Assert.Empty(await Letters(shop));
    }

    [Fact]
    public async Task An_open_day_without_work_gets_a_line_and_a_closed_day_nothing()
    {
        await using var shop = await Open("2027-03-06 08:00", ExampleShop.Settings);

        await Tick(shop);
        shop.Time.Advance(TimeSpan.FromDays(1));
        await Tick(shop);

        Assert.Equal("Nothing on the bench, Saturday 6 March 2027", Assert.Single(await Letters(shop)).Subject);
    }

    // Rules of the tz database, computed independently by hand: Lisbon goes forward at 01:00 UTC on 28 March 2027,
    // New York at 07:00 UTC on 14 March 2027, Berlin at 01:00 UTC on 28 March, Sydney at 16:00 UTC on 2 October, and Lord
    // Howe by half an hour at 15:30 UTC on 2 October 2027 (02:00 becomes 02:30).
    [Theory]
    [InlineData("Europe/Lisbon", "01:30", "2027-03-28 01:00")]
    [InlineData("America/New_York", "02:30", "2027-03-14 07:00")]
    [InlineData("Europe/Berlin", "02:30", "2027-03-28 01:00")]
    [InlineData("Australia/Sydney", "02:30", "2027-10-02 16:00")]
    [InlineData("Australia/Lord_Howe", "02:15", "2027-10-02 15:30")]
    [InlineData("Australia/Lord_Howe", "02:00", "2027-10-02 15:30")]
    [InlineData("Australia/Lord_Howe", "02:30", "2027-10-02 15:30")]
    public async Task An_hour_that_the_clocks_skip_is_kept_right_after_the_gap(string zone, string at, string dueUtc)
    {
        Assert.Equal([dueUtc], await SentAround(dueUtc, ExampleShop.OpenDailyIn(zone, at)));
    }

    // Lisbon goes back at 01:00 UTC on 31 October 2027 (02:00 becomes 01:00), New York at 06:00 UTC on 7 November 2027,
    // Berlin at 01:00 UTC on 31 October (03:00 becomes 02:00), Sydney at 16:00 UTC on 3 April (03:00 becomes 02:00), and
    // Lord Howe by half an hour at 15:00 UTC on 3 April 2027 (02:00 becomes 01:30, so that 02:00 itself comes once).
    [Theory]
    [InlineData("Europe/Lisbon", "01:30", "2027-10-31 00:30")]
    [InlineData("America/New_York", "01:30", "2027-11-07 05:30")]
    [InlineData("Europe/Berlin", "02:30", "2027-10-31 00:30")]
    [InlineData("Australia/Sydney", "02:30", "2027-04-03 15:30")]
    [InlineData("Australia/Lord_Howe", "01:45", "2027-04-03 14:45")]
    [InlineData("Australia/Lord_Howe", "01:30", "2027-04-03 14:30")]
    [InlineData("Australia/Lord_Howe", "02:00", "2027-04-03 15:30")]
    public async Task An_hour_that_comes_twice_is_kept_the_first_time_only(string zone, string at, string dueUtc)
    {
        Assert.Equal([dueUtc], await SentAround(dueUtc, ExampleShop.OpenDailyIn(zone, at)));
    }

    /// <summary>Ticks every quarter of an hour from three hours before to three hours after; when letters came, in UTC.</summary>
    private static async Task<List<string>> SentAround(string dueUtc, object settings)
    {
        await using var shop = await Open(dueUtc, settings, hoursBefore: 3);
        // The day before may still be due; its letter is not the one asked about.
        await Tick(shop);
        var before = (await Letters(shop)).Count;
        var sent = new List<string>();
        for (var quarter = 0; quarter < 24; quarter++)
        {
            shop.Time.Advance(TimeSpan.FromMinutes(15));
            await Tick(shop);
            if ((await Letters(shop)).Count > before + sent.Count)
            {
                sent.Add(shop.Time.GetUtcNow().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture));
            }
        }

        return sent;
    }

    private static async Task<ShopHost> Open(string utc, object settings, int hoursBefore = 0)
    {
        var now = DateTimeOffset.Parse(utc, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);
        var shop = await ShopHost.Start(now.AddHours(-hoursBefore));
        await shop.PutJson("/api/shop", settings);
        return shop;
    }

    private static async Task Tick(ShopHost shop)
    {
        await shop.Tick("plan-sweep");
        await shop.Tick("morning-reminder");
        await shop.Tick("deliver-messages");
    }

    private static async Task<List<MimeMessage>> Letters(ShopHost shop)
    {
        var letters = new List<MimeMessage>();
        var folder = Path.Combine(shop.Folder, "mail");
        foreach (var file in Directory.Exists(folder) ? Directory.GetFiles(folder, "*.eml") : [])
        {
            letters.Add(await MimeMessage.LoadAsync(file, Cancel));
        }

        return letters;
    }
}
