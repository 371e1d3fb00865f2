using System.Net;
using System.Text.RegularExpressions;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

/// <summary>The page of a batch tells all of it.</summary>
public sealed partial class WholeStoryFacts
{
    [Fact]
    public async Task What_became_of_the_blanks_is_told_step_by_step_over_all_trays()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await Start(shop, 10);
        await Record(shop, batch, 1, Kept(10));
        var trays = await shop.PostJson($"/api/batches/{batch}/split", new { trays = new[] { 6, 4 } });
        var other = trays[1].GetProperty("id").GetString()!;
        await NextEvening(shop, 1);
        await Record(shop, batch, 2, Kept(5, ("crack", 1)));
        await Record(shop, other, 2, Kept(3, ("node", 1)));

        var page = await Text(owner, $"/bench/batches/{batch}");

        Assert.Contains("first rack 8 · crack, 1; node, 1", page, StringComparison.Ordinal);
        Assert.Contains("Trays of this batch: 1, 5 blanks 1a, 3 blanks", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_tray_that_was_split_off_tells_the_days_before_it_too()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await Start(shop, 10);
        await Record(shop, batch, 1, Kept(10));
        var trays = await shop.PostJson($"/api/batches/{batch}/split", new { trays = new[] { 6, 4 } });

        var page = await Text(owner, $"/bench/batches/{trays[1].GetProperty("id").GetString()}");

        Assert.Contains("✓ coarse flatten: 10 kept", page, StringComparison.Ordinal);
        Assert.Contains("planned: first rack", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nights_are_told_with_their_blanks_and_the_damp_ones_among_them()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await Start(shop, 10);
        await Record(shop, batch, 1, Kept(10));
        await Record(shop, batch, 2, Kept(9, ("crack", 1)));
        var night = ShopHost.Monday.ToString("yyyy-MM-dd", null);
        await NextEvening(shop, 1);
        await shop.PostJson($"/api/batches/{batch}/nights", new { date = night, damp = true });

        var page = await Text(owner, $"/bench/batches/{batch}");

        Assert.Matches(@"\d nights? 9 blanks 1 damp", page);
        Assert.Contains("you: still damp after the night of Mon 1 March 2027", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Trays_at_the_same_step_are_merged_on_the_page()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await Start(shop, 10);
        var trays = await shop.PostJson($"/api/batches/{batch}/split", new { trays = new[] { 6, 4 } });
        var path = $"/bench/batches/{batch}";

        var none = await owner.PostFrom(path, $"{path}/merge");
        var merged = await owner.PostFrom(path, $"{path}/merge", ("tray", trays[1].GetProperty("id").GetString()!));
        var page = await Text(owner, path);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, none.StatusCode);
        Assert.Equal(HttpStatusCode.SeeOther, merged.StatusCode);
        Assert.Equal(10, (await Batch(shop, batch)).GetProperty("blanks").GetInt32());
        Assert.Contains("you, batch 1: split into 1, 1a", page, StringComparison.Ordinal);
        Assert.Contains("you, batch 1: joined by 1a", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_orders_it_is_made_for_stand_on_it_with_what_their_buyers_were_told()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3, 4)));
        await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        var batch = (await shop.GetJson("/api/batches")).GetProperty("items")[0].GetProperty("id").GetString();

        var page = await Text(owner, $"/bench/batches/{batch}");

        Assert.Contains("order 1: 4 of 3, to ship by", page, StringComparison.Ordinal);
        Assert.Matches("the buyer: Order 1 at Harbour reeds: to ship by [A-Z][a-z]+day ", page);
    }

    [Fact]
    public async Task A_moved_sitting_is_written_into_the_story_of_its_batch()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await Start(shop, 4);
        var sitting = (await shop.GetJson($"/api/batches/{batch}")).GetProperty("planned")[0].GetProperty("id");
        var week = await owner.Read($"/bench/week?move={sitting.GetString()}&to=2027-03-04");
        await owner.PostFrom(
            $"/bench/week?move={sitting.GetString()}&to=2027-03-04",
            "/bench/week/move",
            ("from", "2027-03-01"),
            ("move", sitting.GetString()!),
            ("to", "2027-03-04"),
            ("version", Version().Match(week).Groups["seen"].Value)
        );

        var page = await Text(owner, $"/bench/batches/{batch}");

        Assert.Contains("you: sitting moved to Thu 4 March 2027", page, StringComparison.Ordinal);
    }

    private static Task NextEvening(ShopHost shop, int days)
    {
        shop.Time.SetUtcNow(ShopHost.Monday.AddDays(days).AddHours(20));
        return shop.Tick("plan-sweep");
    }

    /// <summary>What a reader sees, with single blanks between the words.</summary>
    private static async Task<string> Text(Visitor owner, string path) =>
        Blanks().Replace(WebUtility.HtmlDecode(Tags().Replace(await owner.Read(path), " ")), " ").Replace(" :", ":");

    [GeneratedRegex(
        "name=\"version\" value=\"(?<seen>\\d+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex Version();

    [GeneratedRegex("<[^>]+>", RegexOptions.None, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Tags();

    [GeneratedRegex(@"\s+", RegexOptions.None, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Blanks();
}
