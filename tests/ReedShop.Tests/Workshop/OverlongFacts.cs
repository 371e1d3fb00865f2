using System.Net;
using System.Text.Json;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

/// <summary>
/// On Sunday 2 May three trays are half-way: 12, 20 and 14 blanks. The maker is away from the 3rd to the 16th. The 12
/// were racked on Friday and may lie three nights before they are flattened; the others may rest.
/// </summary>
public sealed class OverlongFacts
{
    private static readonly DateOnly Sunday = new(2027, 5, 2);

    [Fact]
    public async Task Blanks_that_lie_past_their_most_nights_are_soaked_and_flattened_once_more()
    {
        await using var shop = await Away();

        var sittings = await Sittings(shop, "2027-05-17");

        Assert.Equal(["flatten, rack", "level", "clip"], Steps(sittings, blanks: 12));
        Assert.Equal([true, false, false], sittings.Where(s => Blanks(s) == 12).Select(Again));
        Assert.Equal(["clip"], Steps(sittings, blanks: 20));
        Assert.Equal(["clip"], Steps(sittings, blanks: 14));
        Assert.Equal(1, sittings.Count(Again));
        Assert.Empty((await shop.GetJson("/api/week?from=2027-05-17")).GetProperty("unplaced").EnumerateArray());
    }

    [Fact]
    public async Task The_repeat_is_recorded_like_any_step_and_its_blanks_are_counted_once()
    {
        await using var shop = await Away();
        var run = (await Sittings(shop, "2027-05-17")).First(Again).GetProperty("batch").GetString()!;
        Evening(shop, 17);

        var flattened = await Record(shop, run, 1, Kept(12));
        var tray = flattened.GetProperty("batch").GetProperty("id").GetString()!;
        var again = await Record(shop, run, 1, Kept(12));
        Assert.Equal(flattened.GetProperty("step").ToString(), again.GetProperty("step").ToString());
        Assert.Equal("rack", flattened.GetProperty("batch").GetProperty("nextStepName").GetString());
        Assert.Contains(
            (await Sittings(shop, "2027-05-17")).Where(sitting => sitting.GetProperty("batch").GetString() == tray),
            sitting => sitting.GetProperty("date").GetString() == "2027-05-17"
        );
        await Record(shop, tray, 2, Kept(12));
        Evening(shop, 18);
        await Record(shop, tray, 3, Kept(12));

        var level = (await shop.GetJson("/api/yields?model=clarinet"))[0]
            .GetProperty("steps")
            .EnumerateArray()
            .Single(step => step.GetProperty("name").GetString() == "level");
        Assert.Equal(12, level.GetProperty("blanks").GetInt32());
        Assert.InRange(level.GetProperty("redoChance").GetDouble(), 0, 0.1);
    }

    [Fact]
    public async Task A_maker_who_stays_after_all_goes_on_without_the_repeat()
    {
        await using var shop = await Away();

        await Close(shop, []);
        await shop.Tick("plan-sweep");

        Assert.DoesNotContain(await Sittings(shop, "2027-05-03"), Again);
        Assert.Equal(["level"], Steps(await Sittings(shop, "2027-05-03"), blanks: 12));
    }

    [Fact]
    public async Task The_maker_may_go_on_all_the_same()
    {
        await using var shop = await Away();
        var run = (await Sittings(shop, "2027-05-17")).First(Again).GetProperty("batch").GetString()!;
        Evening(shop, 17);

        var levelled = await Record(shop, run, 3, Kept(12));

        Assert.Equal("clip", levelled.GetProperty("batch").GetProperty("nextStepName").GetString());
        Assert.DoesNotContain(await Sittings(shop, "2027-05-17"), Again);
    }

    /// <summary>Half an hour is left of Monday, and the maker has given it to the tray of 20.</summary>
    [Fact]
    public async Task An_evening_that_others_fill_is_none()
    {
        await using var shop = await Away(from: 4);
        var twenty = (await Sittings(shop, "2027-05-03")).First(sitting => Blanks(sitting) == 20);
        await ShopHost.Read(await Move(shop, twenty.GetProperty("id").GetString()!, "2027-05-03"));

        await Close(shop, [.. Enumerable.Range(4, 13)], Day(3, new { from = "19:00", to = "19:30" }));
        await shop.Tick("plan-sweep");

        Assert.Equal(["clip"], Steps(await Sittings(shop, "2027-05-03"), blanks: 20));
        Assert.Equal(["flatten, rack", "level", "clip"], Steps(await Sittings(shop, "2027-05-17"), blanks: 12));
    }

    private static async Task<ShopHost> Away(int from = 3)
    {
        var shop = await ShopHost.Start(new DateTimeOffset(Sunday, new TimeOnly(20, 0), TimeSpan.Zero));
        await Close(shop, [.. Enumerable.Range(from, 17 - from)]);
        await shop.PutJson("/api/models/clarinet", Model);
        await shop.PostJson(
            "/api/starting-state",
            new
            {
                drawer = Array.Empty<object>(),
                shelf = Array.Empty<object>(),
                batches = new[] { Tray(12, 3, "2027-04-30"), Tray(20, 4, "2027-04-30"), Tray(14, 4, "2027-04-30") },
                promises = Array.Empty<object>(),
            }
        );
        return shop;
    }

    /// <summary>Tries again while the plan is being brought up to the settings in the background.</summary>
    private static async Task<HttpResponseMessage> Move(ShopHost shop, string sitting, string date)
    {
        HttpResponseMessage? answer = null;
        for (var tries = 0; tries < 10 && answer?.StatusCode is null or HttpStatusCode.PreconditionFailed; tries++)
        {
            var week = await shop.Owner.GetAsync("/api/week", TestContext.Current.CancellationToken);
            var version = week.Headers.ETag!.Tag;
            answer = await shop.Send(
                HttpMethod.Post,
                $"/api/sittings/{sitting}/move",
                new { date },
                [("If-Match", version)]
            );
        }

        return answer!;
    }

    private static async Task Close(ShopHost shop, int[] daysOfMay, params object[] others)
    {
        var settings = JsonSerializer.SerializeToNode(ExampleShop.Settings)!;
        settings["otherDays"] = JsonSerializer.SerializeToNode(others.Concat(daysOfMay.Select(day => Day(day))));
        var known = await shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken);
        await shop.PutJson("/api/shop", settings, known.Headers.ETag?.Tag);
    }

    private static object Day(int may, params object[] hours) =>
        new
        {
            date = $"2027-05-{may:00}",
            hours,
            reason = "away",
        };

    private static object Model =>
        ExampleModel.Of(
            ExampleModel.Step("flatten", 60, soakMinutes: 10),
            ExampleModel.Step("rack", 6, dry: ExampleModel.Night(mostNights: 3)),
            ExampleModel.Step("level", 60, dry: ExampleModel.Night(), check: "counted", redoFrom: "flatten"),
            ExampleModel.Step("clip", 30, check: "graded")
        );

    private static object Tray(int blanks, int nextStep, string lastWorkedOn) =>
        new
        {
            model = "clarinet",
            blanks,
            nextStep,
            aim = 3.5,
            lastWorkedOn,
        };

    private static void Evening(ShopHost shop, int may) =>
        shop.Time.SetUtcNow(new DateTimeOffset(2027, 5, may, 18, 0, 0, TimeSpan.Zero));

    private static async Task<JsonElement[]> Sittings(ShopHost shop, string from) =>
        [
            .. (await shop.GetJson($"/api/week?from={from}"))
                .GetProperty("days")
                .EnumerateArray()
                .SelectMany(day => day.GetProperty("sittings").EnumerateArray()),
        ];

    private static string[] Steps(JsonElement[] sittings, int blanks) =>
        [
            .. sittings
                .Where(sitting => Blanks(sitting) == blanks)
                .Select(sitting => string.Join(", ", sitting.GetProperty("steps").EnumerateArray())),
        ];

    private static int Blanks(JsonElement sitting) => sitting.GetProperty("blanks").GetInt32();

    private static bool Again(JsonElement sitting) => sitting.GetProperty("again").GetBoolean();
}
