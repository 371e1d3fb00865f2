using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Web;

namespace ReedShop.Tests.Workshop;

public sealed partial class TakenBackMoveFacts
{
    private const string Week = "/bench/week";

    [Fact]
    public async Task A_move_is_taken_back_to_the_very_days_it_came_from()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await AtTheBench.Start(shop, 10);
        var before = await Planned(shop, batch);

        var moved = await Move(owner, before[0].Id, "2027-03-04");
        Assert.Equal(("2027-03-04", true), (await First(shop, batch)));
        var page = await owner.Read(moved);
        Assert.Contains("Kept.", page, StringComparison.Ordinal);
        await owner.PostFrom(moved, $"{Week}/undo", ("from", "2027-03-01"), ("moved", Said(moved)));

        Assert.Equal(before, await Planned(shop, batch));
    }

    [Fact]
    public async Task What_was_moved_once_more_meanwhile_stays_where_it_is()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await AtTheBench.Start(shop, 10);
        var sitting = (await Planned(shop, batch))[0].Id;
        var first = await Move(owner, sitting, "2027-03-04");
        await Move(owner, sitting, "2027-03-05");

        var answer = await owner.PostFrom(first, $"{Week}/undo", ("from", "2027-03-01"), ("moved", Said(first)));

        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        Assert.Equal(("2027-03-05", true), await First(shop, batch));
    }

    [Fact]
    public async Task A_day_that_was_closed_meanwhile_is_not_had_back()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await AtTheBench.Start(shop, 10);
        var before = await Planned(shop, batch);
        var moved = await Move(owner, before[0].Id, "2027-03-04");
        await CloseMonday(shop);

        var answer = await owner.PostFrom(moved, $"{Week}/undo", ("from", "2027-03-01"), ("moved", Said(moved)));

        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        Assert.Equal("2027-03-04", (await First(shop, batch)).Day);
    }

    [Fact]
    public async Task A_day_of_the_makers_own_is_given_back_to_the_plan()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await AtTheBench.Start(shop, 10);
        var before = await Planned(shop, batch);
        await Move(owner, before[0].Id, "2027-03-04");
        Assert.Contains(
            "Let the plan choose the day again",
            await owner.Read($"{Week}?move={before[0].Id}"),
            StringComparison.Ordinal
        );

        var path = $"/api/sittings/{before[0].Id}/release";
        var version = (await shop.Owner.GetAsync("/api/week", TestContext.Current.CancellationToken)).Headers.ETag!.Tag;
        await ShopHost.Read(await shop.Send(HttpMethod.Post, path, null, [("If-Match", version)]));

        Assert.Equal(before, await Planned(shop, batch));
    }

    [Theory]
    [InlineData("9999-12-31")]
    [InlineData("0001-01-01")]
    public async Task Days_that_no_plan_reaches_are_refused_on_every_page(string day)
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);

        foreach (var address in new[] { $"/bench/today?date={day}", $"{Week}?from={day}" })
        {
            var answer = await owner.Get(address);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("nonsense")]
    [InlineData("a,own,b")]
    [InlineData("a,,b@soon")]
    [InlineData("a,,b@2027-03-01,b@2027-03-02")]
    public async Task A_move_that_was_none_is_refused(string said)
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);

        var answer = await owner.PostFrom(Week, $"{Week}/undo", ("from", "2027-03-01"), ("moved", said));

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    /// <returns>The address that the page goes to when the move is kept.</returns>
    private static async Task<string> Move(Visitor owner, string sitting, string to)
    {
        var preview = $"{Week}?from=2027-03-01&move={sitting}&to={to}";
        var version = VersionField().Match(await owner.Read(preview));
        var kept = await owner.PostFrom(
            preview,
            $"{Week}/move",
            ("from", "2027-03-01"),
            ("move", sitting),
            ("to", to),
            ("version", version.Groups["version"].Value)
        );
        return kept.Headers.Location!.OriginalString;
    }

    private static string Said(string address) =>
        HttpUtility.ParseQueryString(address[address.IndexOf('?')..])["moved"]!;

    private static async Task CloseMonday(ShopHost shop)
    {
        var current = await shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken);
        var settings = JsonSerializer.SerializeToNode(ExampleShop.Settings)!;
        settings["otherDays"] = JsonSerializer.SerializeToNode(
            new[] { new { date = "2027-03-01", hours = Array.Empty<object>() } }
        );
        await ShopHost.Read(
            await shop.Send(HttpMethod.Put, "/api/shop", settings, [("If-Match", current.Headers.ETag!.Tag)])
        );
    }

    private static async Task<IReadOnlyList<(string Id, string Day, bool Pinned)>> Planned(
        ShopHost shop,
        string batch
    ) =>
        [
            .. (await shop.GetJson($"/api/batches/{batch}"))
                .GetProperty("planned")
                .EnumerateArray()
                .Select(sitting =>
                    (
                        sitting.GetProperty("id").GetString()!,
                        sitting.GetProperty("date").GetString()!,
                        sitting.GetProperty("pinned").GetBoolean()
                    )
                ),
        ];

    private static async Task<(string Day, bool Pinned)> First(ShopHost shop, string batch) =>
        (await Planned(shop, batch))[0] is var (_, day, pinned) ? (day, pinned) : default;

    [GeneratedRegex("name=\"version\" value=\"(?<version>\\d+)\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex VersionField();
}
