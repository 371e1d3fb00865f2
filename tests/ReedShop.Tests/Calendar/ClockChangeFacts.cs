using System.Globalization;
using System.Text.Json;
using NodaTime;
using static ReedShop.Tests.Calendar.Subscriber;

namespace ReedShop.Tests.Calendar;

/// <summary>What a calendar fetches from a shop in the week in which its clocks change.</summary>
public sealed class ClockChangeFacts
{
    private const int BlanksOfAnEvening = 20;
    private const int Batches = 4;

    /// <summary>
    /// From the Thursday before the Sunday of the change. Offsets from UTC in minutes are rules of the tz database, value
    /// from memory; the instants are computed from the plan's wall times with NodaTime.
    /// </summary>
    [Theory]
    [InlineData("Europe/Lisbon", "2027-03-25", 0, 60)]
    [InlineData("Europe/Lisbon", "2027-10-28", 60, 0)]
    [InlineData("America/New_York", "2027-03-11", -300, -240)]
    [InlineData("America/New_York", "2027-11-04", -240, -300)]
    [InlineData("Australia/Sydney", "2027-04-01", 660, 600)]
    [InlineData("Australia/Sydney", "2027-09-30", 600, 660)]
    [InlineData("Australia/Lord_Howe", "2027-04-01", 660, 630)]
    [InlineData("Australia/Lord_Howe", "2027-09-30", 630, 660)]
    public async Task A_sitting_starts_at_the_wall_time_of_the_plan_on_both_sides_of_the_change(
        string zoneName,
        string thursday,
        int before,
        int after
    )
    {
        var zone = DateTimeZoneProviders.Tzdb[zoneName];
        var first = DateOnly.ParseExact(thursday, "yyyy-MM-dd", CultureInfo.InvariantCulture);
        await using var shop = await ShopHost.Start(InstantOf(zone, first, new TimeOnly(9, 0)));
        await shop.PutJson("/api/shop", ExampleShop.OpenDailyIn(zoneName, "07:00"));
        await StartBatches(shop);
        using var owner = await Visitor.Owner(shop);
        var feed = await Read(shop, await Subscribe(owner));

        var offsets = new Dictionary<DateOnly, int>();
        foreach (var (id, day, at) in await Planned(shop, first))
        {
            var start = feed.Named(id).DtStart!;
            var utc = InstantOf(zone, day, at).UtcDateTime;
            Assert.Equal(zoneName, start.TzId);
            Assert.Equal($"{day:yyyy-MM-dd} {at:HH:mm}", Feed.Written(start.Value));
            Assert.Equal(Feed.Written(utc), Feed.Written(start.AsUtc));
            Assert.Equal(Feed.Written(utc), feed.UtcByTheFile(start.Value));
            offsets[day] = (int)(day.ToDateTime(at) - utc).TotalMinutes;
        }

        // The clocks change in the night to Sunday: the evening of the Saturday is the last of the old time.
        var sunday = first.AddDays(3);
        Assert.Contains(offsets, told => told.Key < sunday);
        Assert.Contains(offsets, told => told.Key >= sunday);
        Assert.All(offsets, told => Assert.Equal(told.Key < sunday ? before : after, told.Value));
    }

    /// <summary>Each has an evening to itself.</summary>
    private static async Task StartBatches(ShopHost shop)
    {
        await shop.PutJson("/api/models/clarinet", ExampleShop.Clarinet);
        await shop.PostJson("/api/cane", ExampleShop.Cane);
        for (var n = 0; n < Batches; n++)
        {
            await shop.PostJson(
                "/api/batches",
                new
                {
                    model = "clarinet",
                    blanks = BlanksOfAnEvening,
                    aim = 3.5,
                }
            );
        }
    }

    /// <summary>The sittings of eleven days, from the week and the day lists: the first step of each has its clock time.</summary>
    private static async Task<List<(string Id, DateOnly Day, TimeOnly At)>> Planned(ShopHost shop, DateOnly first)
    {
        var planned = new List<(string, DateOnly, TimeOnly)>();
        for (var day = first; day < first.AddDays(11); day = day.AddDays(1))
        {
            var week = await shop.GetJson($"/api/week?from={day:yyyy-MM-dd}");
            var list = await shop.GetJson($"/api/day/{day:yyyy-MM-dd}");
            foreach (var sitting in week.GetProperty("days")[0].GetProperty("sittings").EnumerateArray())
            {
                var line = list.GetProperty("lines").EnumerateArray().First(line => IsFirstOf(line, sitting));
                planned.Add((sitting.GetProperty("id").GetString()!, day, Clock(line)));
            }
        }

        return planned;
    }

    private static bool IsFirstOf(JsonElement line, JsonElement sitting) =>
        line.GetProperty("batch").GetString() == sitting.GetProperty("batch").GetString()
        && line.GetProperty("step").GetInt32() == sitting.GetProperty("firstStep").GetInt32();

    private static TimeOnly Clock(JsonElement line) =>
        TimeOnly.Parse(line.GetProperty("start").GetString()!, CultureInfo.InvariantCulture);

    private static DateTimeOffset InstantOf(DateTimeZone zone, DateOnly day, TimeOnly at) =>
        zone.AtStrictly(LocalDate.FromDateOnly(day).At(LocalTime.FromTimeOnly(at))).ToInstant().ToDateTimeOffset();
}
