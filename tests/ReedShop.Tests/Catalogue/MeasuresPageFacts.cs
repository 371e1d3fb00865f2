using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ReedShop.Tests.Catalogue;

/// <summary>Which steps are measured, typed on the page of models.</summary>
public sealed class MeasuresPageFacts
{
    private const string Models = "/bench/models";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_step_is_measured_from_now_on_and_the_bench_asks_for_readings()
    {
        await using var shop = await ShopIn("millimetre");
        using var owner = await Visitor.Owner(shop);

        var set = await Set(owner, ("target-2", "3,10"), ("tolerance-2", "0.05"));
        await AtTheBench(shop);

        Assert.Equal(HttpStatusCode.SeeOther, set.StatusCode);
        Assert.Contains(
            "measured, mm (3.05 to 3.15 wanted)",
            await owner.Read("/bench/today"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_step_that_is_left_empty_is_measured_no_longer()
    {
        await using var shop = await ShopIn("millimetre");
        using var owner = await Visitor.Owner(shop);
        await Set(owner, ("target-2", "3.10"), ("tolerance-2", "0.05"));

        await Set(owner, ("version", "2"));

        Assert.Null(await MeasureOf(shop));
    }

    [Fact]
    public async Task Where_the_gauge_reads_inches_the_page_shows_and_takes_inches_alone()
    {
        await using var shop = await ShopIn("inch");
        using var owner = await Visitor.Owner(shop);
        await Set(owner, ("target-2", "0.122"), ("tolerance-2", "0.002"));

        var page = await owner.Read(Models);
        var measure = (await MeasureOf(shop))!.Value;

        Assert.Contains("Thickness wanted, in<", page, StringComparison.Ordinal);
        Assert.DoesNotContain(" mm<", page, StringComparison.Ordinal);
        Assert.Equal("inch", measure.GetProperty("unit").GetString());
        Assert.Equal(0.122m, measure.GetProperty("target").GetDecimal());
    }

    /// <summary>0.122 in is 3.10 mm to the nearest count, and 3.10 mm is 0.122 in: but 3.05 mm would not come back.</summary>
    [Fact]
    public async Task What_was_not_touched_keeps_the_unit_it_was_typed_in()
    {
        await using var shop = await ShopIn("millimetre");
        using var owner = await Visitor.Owner(shop);
        await Set(owner, ("target-2", "3.05"), ("tolerance-2", "0.05"));
        await ChangeUnit(shop, "inch");

        var page = await owner.Read(Models);
        var again = await Set(owner, ("version", "2"), ("target-2", "0.120"), ("tolerance-2", "0.002"));

        Assert.Contains("value=\"0.120\"", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, again.StatusCode);
        Assert.Equal(3.05m, (await MeasureOf(shop))!.Value.GetProperty("target").GetDecimal());
    }

    [Theory]
    [InlineData("thick", "0.05", "target-2")]
    [InlineData("0", "0.05", "target-2")]
    [InlineData("3.1", "", "tolerance-2")]
    [InlineData("3.1", "3.1", "tolerance-2")]
    public async Task What_cannot_be_a_thickness_is_refused_beside_its_step(
        string target,
        string tolerance,
        string field
    )
    {
        await using var shop = await ShopIn("millimetre");
        using var owner = await Visitor.Owner(shop);

        var answer = await Set(owner, ("target-2", target), ("tolerance-2", tolerance));

        var page = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("Accepted: a thickness in mm such as 3.05", page, StringComparison.Ordinal);
        Assert.Matches($"name=\"{field}\"[^>]*aria-invalid=\"true\"", page);
        Assert.Null(await MeasureOf(shop));
    }

    private static Task<HttpResponseMessage> Set(Visitor owner, params (string Name, string Value)[] typed)
    {
        var version = typed.Any(field => field.Name == "version") ? "" : "1";
        return owner.PostFrom(
            Models,
            $"{Models}/measures",
            [
                ("model", "clarinet"),
                .. version.Length > 0 ? [("version", version)] : Array.Empty<(string, string)>(),
                ("target-1", ""),
                .. typed,
            ]
        );
    }

    private static async Task<ShopHost> ShopIn(string unit)
    {
        var shop = await ShopHost.Start();
        var settings = JsonSerializer.SerializeToNode(ExampleShop.Settings)!;
        settings["lengthUnit"] = unit;
        await shop.PutJson("/api/shop", settings);
        await shop.PutJson("/api/models/clarinet", ExampleShop.Clarinet);
        return shop;
    }

    private static async Task ChangeUnit(ShopHost shop, string unit)
    {
        var current = await shop.Owner.GetAsync("/api/shop", Cancel);
        var settings = JsonNode.Parse(await current.Content.ReadAsStringAsync(Cancel))!;
        settings["lengthUnit"] = unit;
        await ShopHost.Read(
            await shop.Send(HttpMethod.Put, "/api/shop", settings, [("If-Match", current.Headers.ETag!.Tag)])
        );
    }

    private static async Task AtTheBench(ShopHost shop)
    {
        await shop.PostJson("/api/cane", ExampleShop.Cane);
        var batch = await shop.PostJson(
            "/api/batches",
            new
            {
                model = "clarinet",
                blanks = 10,
                aim = 3.5,
            }
        );
        await Workshop.AtTheBench.Record(shop, batch.GetProperty("id").GetString()!, 1, Workshop.AtTheBench.Kept(10));
    }

    private static async Task<JsonElement?> MeasureOf(ShopHost shop) =>
        (await shop.GetJson("/api/models/clarinet"))
            .GetProperty("route")[0]
            .GetProperty("steps")[1]
            .TryGetProperty("measure", out var measure)
            ? measure
            : null;
}
