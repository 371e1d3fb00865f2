using System.Net;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Tests.Workshop;

/// <summary>Soaking and flattening ten blanks is planned for Monday evening; in some facts the stored plan gives it to Ana.</summary>
public sealed class HelperFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Without_helpers_nobody_is_named()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await shop.PutJson("/api/shop", ExampleShop.Settings, "\"1\"");
        await ExampleShop.StartTenBlanks(shop);

        Assert.False((await Monday(shop)).GetProperty("sittings")[0].TryGetProperty("helper", out _));
        Assert.DoesNotContain("· you", await Text(owner, "/bench/week"), StringComparison.Ordinal);
        Assert.DoesNotContain("Yours", await Text(owner, "/bench/today"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_week_names_whose_sitting_it_is_and_counts_everybodys_minutes()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await GiveToAna(shop);

        var monday = await Monday(shop);
        Assert.Equal("Ana", monday.GetProperty("sittings")[0].GetProperty("helper").GetString());
        Assert.Equal(240, monday.GetProperty("openMinutes").GetInt32());
        Assert.Contains("min · Ana", await Text(owner, "/bench/week"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_helper_has_a_list_in_their_own_hours()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await GiveToAna(shop);

        var day = await shop.GetJson("/api/day/2027-03-01");

        Assert.Empty(day.GetProperty("lines").EnumerateArray());
        var ana = Assert.Single(day.GetProperty("helpers").EnumerateArray());
        Assert.Equal("Ana", ana.GetProperty("helper").GetString());
        Assert.Equal("17:00", ana.GetProperty("lines")[0].GetProperty("start").GetString());
        var page = await Text(owner, "/bench/today");
        Assert.Contains("Ana <small>open 17:00–19:00</small>", page, StringComparison.Ordinal);
        Assert.Contains("<time>17:00</time>", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_planner_is_told_who_does_each_sitting_and_what_minutes_each_person_has()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        var batch = await GiveToAna(shop);

        var bench = await shop.Within(async services =>
            BenchWork.Of((await services.GetRequiredService<FactsReader>().Read(Cancel)).Value)
        );

        Assert.Equal([1, 0], bench.Current.People[batch]);
        Assert.Equal([120, 0], bench.Work.Helpers[0].Take(2));
        Assert.Equal(0, bench.Work.Helpers[0][7]);
    }

    [Fact]
    public async Task What_a_helper_did_today_is_taken_from_their_own_minutes()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        var batch = await GiveToAna(shop);
        await shop.PostJson($"/api/batches/{batch}/steps/1/record", Kept(10, minutes: 5));
        await shop.PostJson($"/api/batches/{batch}/steps/2/record", Kept(10, minutes: 60));

        var work = await shop.Within(async services =>
            BenchWork.Of((await services.GetRequiredService<FactsReader>().Read(Cancel)).Value).Work
        );

        Assert.Equal((120, 55), (work.OpenMinutes[0], work.Helpers[0][0]));
    }

    private static object Kept(int passed, int minutes) =>
        new
        {
            passed,
            minutes,
            rejected = Array.Empty<object>(),
        };

    [Fact]
    public async Task The_sittings_of_a_helper_who_leaves_are_the_makers_again_and_no_other_helpers()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await GiveToAna(shop);

        await shop.PutJson("/api/shop", ExampleShop.With(ExampleShop.Helper("Rui", "17:00", "17:01")), "\"2\"");
        await shop.Tick("plan-sweep");

        Assert.False((await Monday(shop)).GetProperty("sittings")[0].TryGetProperty("helper", out _));
        Assert.Equal("19:00", await FirstStart(shop));
        Assert.False(
            await shop.Within(services => Sittings(services).AnyAsync(sitting => sitting.Helper != null, Cancel))
        );
    }

    [Fact]
    public async Task Work_that_the_maker_has_no_hours_for_goes_to_the_helper_and_stays_there()
    {
        await using var shop = await ShopHost.Start();
        var settings = ExampleShop.With(ExampleShop.Helper("Ana"));
        settings["hours"]!.AsObject().Remove("monday");
        await shop.PutJson("/api/shop", settings);
        await ExampleShop.StartTenBlanks(shop);
        Assert.Equal("Ana", (await Monday(shop)).GetProperty("sittings")[0].GetProperty("helper").GetString());

        await shop.PostJson(
            "/api/batches",
            new
            {
                model = "clarinet",
                blanks = 5,
                aim = 3,
            }
        );

        Assert.All(
            (await Monday(shop)).GetProperty("sittings").EnumerateArray(),
            sitting => Assert.Equal("Ana", sitting.GetProperty("helper").GetString())
        );
    }

    [Fact]
    public async Task A_sitting_moved_to_a_day_that_only_the_helper_has_is_theirs()
    {
        await using var shop = await ShopHost.Start();
        var settings = ExampleShop.With(ExampleShop.Helper("Ana"));
        settings["hours"]!.AsObject().Remove("monday");
        await shop.PutJson("/api/shop", settings);
        await ExampleShop.StartTenBlanks(shop);
        var week = await shop.Owner.GetAsync("/api/week", Cancel);
        var first = (await ShopHost.Read(week)).GetProperty("days")[0].GetProperty("sittings")[0];

        var moved = await shop.Send(
            HttpMethod.Post,
            $"/api/sittings/{first.GetProperty("id").GetString()}/move",
            new { date = "2027-03-15" },
            ("If-Match", week.Headers.ETag!.Tag)
        );

        await ShopHost.Read(moved);
        var monday = (await shop.GetJson("/api/week?from=2027-03-15")).GetProperty("days")[0];
        Assert.Equal("Ana", monday.GetProperty("sittings")[0].GetProperty("helper").GetString());
    }

    private static async Task<string> Text(Visitor owner, string path) => WebUtility.HtmlDecode(await owner.Read(path));

    private static async Task<string?> FirstStart(ShopHost shop) =>
        (await shop.GetJson("/api/day/2027-03-01")).GetProperty("lines")[0].GetProperty("start").GetString();

    /// <summary>The id of the batch.</summary>
    private static async Task<string> GiveToAna(ShopHost shop)
    {
        await shop.PutJson("/api/shop", ExampleShop.With(ExampleShop.Helper("Ana")), "\"1\"");
        var batch = await ExampleShop.StartTenBlanks(shop);
        await shop.Within(services =>
            Sittings(services)
                .ExecuteUpdateAsync(
                    rows =>
                        rows.SetProperty(sitting => sitting.Helper, sitting => sitting.FirstStep == 1 ? "Ana" : null),
                    Cancel
                )
        );
        return batch;
    }

    private static DbSet<PlannedSitting> Sittings(IServiceProvider services) =>
        services.GetRequiredService<ShopDb>().Set<PlannedSitting>();

    private static async Task<JsonElement> Monday(ShopHost shop) =>
        (await shop.GetJson("/api/week")).GetProperty("days")[0];
}
