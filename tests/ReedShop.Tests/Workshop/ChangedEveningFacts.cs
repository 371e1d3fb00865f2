using System.Net;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

public sealed class ChangedEveningFacts
{
    [Fact]
    public async Task A_damp_night_puts_the_next_sitting_off_by_one_night()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        shop.Time.SetUtcNow(Evening(1));
        await Record(shop, run, 1, Kept(10));
        await Record(shop, run, 2, Kept(10));
        Assert.Equal("2027-03-02", await NextDay(shop, run));

        var tonight = new { date = "2027-03-01", damp = true };
        var early = await shop.Send(HttpMethod.Post, $"/api/batches/{run}/nights", tonight);
        await ShopHost.ReadProblem(early, HttpStatusCode.UnprocessableEntity, "invalid-value");

        shop.Time.SetUtcNow(Evening(2));
        await shop.PostJson($"/api/batches/{run}/nights", tonight);
        await shop.PostJson($"/api/batches/{run}/nights", new { date = "2027-03-01", damp = true });
        Assert.Equal("2027-03-03", await NextDay(shop, run));
    }

    [Fact]
    public async Task A_missed_evening_is_planned_again()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        Assert.Equal("2027-03-01", await NextDay(shop, run));

        shop.Time.SetUtcNow(Evening(2));
        Assert.True((await shop.GetJson("/api/week")).GetProperty("outdated").GetBoolean());
        await shop.Tick("plan-sweep");

        Assert.Equal("2027-03-02", await NextDay(shop, run));
        Assert.False((await shop.GetJson("/api/week")).GetProperty("outdated").GetBoolean());
    }

    [Fact]
    public async Task A_sitting_moves_only_to_a_day_that_keeps_the_rules()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        var sitting = (await shop.GetJson($"/api/batches/{run}"))
            .GetProperty("planned")[0]
            .GetProperty("id")
            .GetString();
        var path = $"/api/sittings/{sitting}/move";

        var preview = await shop.PostJson(path, new { date = "2027-03-04", preview = true });
        Assert.False(preview.GetProperty("kept").GetBoolean());
        Assert.Equal("2027-03-01", await NextDay(shop, run));

        await ShopHost.ReadProblem(
            await shop.Send(HttpMethod.Post, path, new { date = "2027-03-04" }),
            (HttpStatusCode)428,
            "version-missing"
        );
        var version = (await shop.Owner.GetAsync("/api/week", TestContext.Current.CancellationToken)).Headers.ETag!.Tag;
        var closed = await shop.Send(HttpMethod.Post, path, new { date = "2027-03-07" }, [("If-Match", version)]);
        await ShopHost.ReadProblem(closed, HttpStatusCode.Conflict, "rule-broken");
        await ShopHost.Read(
            await shop.Send(HttpMethod.Post, path, new { date = "2027-03-04" }, [("If-Match", version)])
        );
        Assert.Equal("2027-03-04", await NextDay(shop, run));
        var stale = await shop.Send(HttpMethod.Post, path, new { date = "2027-03-05" }, [("If-Match", version)]);
        await ShopHost.ReadProblem(stale, HttpStatusCode.PreconditionFailed, "changed-meanwhile");
    }

    private static DateTimeOffset Evening(int march) => new(2027, 3, march, 20, 0, 0, TimeSpan.Zero);
}
