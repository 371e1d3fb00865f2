using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Insight;

public sealed class YieldFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_marker_makes_older_batches_count_less_until_it_is_removed()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var before = await Profile(shop);
        var marker = await shop.PostJson(
            "/api/yields/markers",
            new
            {
                what = "new blade",
                model = ExampleReeds.Clarinet,
                date = "2027-02-20",
            }
        );
        var marked = await Profile(shop);
        Assert.True(Width(marked) > Width(before) + 0.01);
        var listed = Assert.Single((await shop.GetJson("/api/yields/markers")).EnumerateArray());
        Assert.Equal("new blade", listed.GetProperty("what").GetString());
        Assert.Equal("2027-02-20", listed.GetProperty("date").GetString());

        var path = $"/api/yields/markers/{marker.GetProperty("id").GetString()}";
        await ShopHost.Read(await shop.Send(HttpMethod.Delete, path));

        Assert.Equal(Width(before), Width(await Profile(shop)), 1e-12);
        Assert.Empty((await shop.GetJson("/api/yields/markers")).EnumerateArray());
        await ShopHost.ReadProblem(await shop.Send(HttpMethod.Delete, path), HttpStatusCode.NotFound, "not-found");
    }

    /// <summary>Two of them would make what came before count less twice, and every promise look worse than it is.</summary>
    [Fact]
    public async Task The_same_marker_sent_twice_counts_once()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var first = await shop.PostJson("/api/yields/markers", new { what = "new blade" });
        var once = await Profile(shop);

        var again = await shop.PostJson("/api/yields/markers", new { what = " new blade " });

        Assert.Equal(first.GetProperty("id").GetString(), again.GetProperty("id").GetString());
        Assert.Equal(Width(once), Width(await Profile(shop)), 1e-12);
        Assert.Single((await shop.GetJson("/api/yields/markers")).EnumerateArray());
    }

    [Theory]
    [InlineData("", null, null, "what")]
    [InlineData("new blade", "oboe", null, "model")]
    [InlineData("new blade", null, "2027-03-02", "date")]
    public async Task A_marker_that_says_nothing_true_is_refused(string what, string? model, string? date, string field)
    {
        await using var shop = await ExampleReeds.NewShop();
        var answer = await shop.Send(
            HttpMethod.Post,
            "/api/yields/markers",
            new
            {
                what,
                model,
                date,
            }
        );
        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal(field, problem.GetProperty("field").GetString());
    }

    [Fact]
    public async Task Four_bad_batches_are_told_on_the_page_and_a_marker_set_there_explains_them()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);
        Assert.DoesNotContain(
            "Something may have changed",
            await owner.Read("/bench/yields"),
            StringComparison.Ordinal
        );
        var rows = Enumerable
            .Range(1, 4)
            .Select(i => $"bad {i},{ExampleReeds.Clarinet},3.5,{ExampleReeds.KindLot},2027-02-2{i + 3},profile,20,6,0");
        await ExampleReeds.Import(
            shop,
            "/api/history/steps",
            $"batch,model,aim,caneLot,date,step,in,out,redo\n{string.Join('\n', rows)}\n"
        );

        var drift = Assert.Single(
            (await Clarinet(shop)).GetProperty("drifts").EnumerateArray(),
            drift => drift.TryGetProperty("step", out var step) && step.GetString() == "profile"
        );
        Assert.Equal(24, drift.GetProperty("seen").GetDouble());
        Assert.True(drift.GetProperty("low").GetDouble() > 40);
        var trend = (await Clarinet(shop)).GetProperty("trends").EnumerateArray().Single(IsProfile);
        Assert.Equal(
            ["bad 1", "bad 2", "bad 3", "bad 4"],
            trend
                .GetProperty("batches")
                .EnumerateArray()
                .Where(batch => batch.GetProperty("isOutside").GetBoolean())
                .Select(batch => batch.GetProperty("batch").GetString())
        );
        var told = await owner.Read("/bench/yields");
        Assert.Contains("profile: the last 4 batches kept 24 of 80 blanks", told, StringComparison.Ordinal);
        Assert.Contains(
            "profile, batch by batch: 4 batches lie outside the usual range",
            told,
            StringComparison.Ordinal
        );

        var set = await owner.PostFrom(
            "/bench/yields",
            "/bench/yields/markers",
            ("what", "new template"),
            ("model", ExampleReeds.Clarinet),
            ("date", "2027-02-24")
        );

        Assert.Equal("/bench/yields", set.Headers.Location?.OriginalString);
        var page = await owner.Read("/bench/yields");
        Assert.Contains("<b>new template</b>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Something may have changed", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_marker_refused_on_the_page_stays_typed()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var answer = await owner.PostFrom(
            "/bench/yields",
            "/bench/yields/markers",
            ("what", "new paper 320"),
            ("model", ""),
            ("date", "soon")
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(
            "value=\"new paper 320\"",
            await answer.Content.ReadAsStringAsync(Cancel),
            StringComparison.Ordinal
        );
    }

    private static bool IsProfile(JsonElement trend) => trend.GetProperty("step").GetString() == "profile";

    private static async Task<JsonElement> Clarinet(ShopHost shop) =>
        Assert.Single((await shop.GetJson($"/api/yields?model={ExampleReeds.Clarinet}")).EnumerateArray());

    private static async Task<JsonElement> Profile(ShopHost shop) =>
        Assert.Single(
            (await Clarinet(shop)).GetProperty("steps").EnumerateArray(),
            step => step.GetProperty("name").GetString() == "profile"
        );

    private static double Width(JsonElement step) =>
        step.GetProperty("high").GetDouble() - step.GetProperty("low").GetDouble();
}
