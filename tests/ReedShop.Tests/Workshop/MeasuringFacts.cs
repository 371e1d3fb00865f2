using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ReedShop.Tests.Workshop;

/// <summary>A gauge is taken to the blanks after they are flattened: 3.10 mm, 0.05 either side.</summary>
public sealed class MeasuringFacts
{
    [Fact]
    public async Task Readings_outside_the_tolerance_are_kept_and_told()
    {
        await using var shop = await Measured();
        using var owner = await Visitor.Owner(shop);
        var batch = await StartAndSoak(shop);
        var page = await owner.Read("/bench/today");
        Assert.Contains("measured, mm (3.05 to 3.15 wanted)", page, StringComparison.Ordinal);

        var recorded = await owner.PostFrom(
            "/bench/today",
            $"/bench/batches/{batch}/steps/2",
            ("back", "today"),
            ("measured", "3,02 3.10; 3.2")
        );

        Assert.Equal(HttpStatusCode.SeeOther, recorded.StatusCode);
        Assert.Contains(
            "measured 3.02–3.20 mm, 1 of 3 too thin, 1 of 3 too thick (3.05–3.15 wanted)",
            WebUtility.HtmlDecode(await owner.Read("/bench/today")),
            StringComparison.Ordinal
        );
        var measured = (await shop.GetJson($"/api/batches/{batch}")).GetProperty("steps")[1].GetProperty("measured");
        Assert.Equal(
            [3.02m, 3.10m, 3.20m],
            measured.GetProperty("readings").EnumerateArray().Select(r => r.GetDecimal())
        );
        Assert.Equal(1, measured.GetProperty("tooThin").GetInt32());
    }

    [Fact]
    public async Task A_gauge_that_reads_inches_is_asked_and_answered_in_inches()
    {
        await using var shop = await Measured("inch");
        using var owner = await Visitor.Owner(shop);
        var batch = await StartAndSoak(shop);
        Assert.Contains(
            "measured, in (0.120 to 0.124 wanted)",
            await owner.Read("/bench/today"),
            StringComparison.Ordinal
        );

        await shop.PostJson(
            $"/api/batches/{batch}/steps/2/record",
            new
            {
                passed = 10,
                rejected = Array.Empty<object>(),
                measured = new[] { 0.121, 0.125 },
            }
        );

        Assert.Contains(
            "measured 0.121–0.125 in, 1 of 2 too thick (0.120–0.124 wanted)",
            WebUtility.HtmlDecode(await owner.Read($"/bench/batches/{batch}")),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("thick")]
    [InlineData("0")]
    [InlineData("99")]
    [InlineData("3.1 3.1 3.1 3.1 3.1 3.1 3.1 3.1 3.1 3.1 3.1")]
    public async Task A_reading_that_cannot_be_right_is_refused_and_nothing_is_lost(string typed)
    {
        await using var shop = await Measured();
        using var owner = await Visitor.Owner(shop);
        var batch = await StartAndSoak(shop);

        var answer = await owner.PostFrom(
            "/bench/today",
            $"/bench/batches/{batch}/steps/2",
            ("back", "today"),
            ("measured", typed)
        );

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(
            $"value=\"{typed}\"",
            await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        Assert.Equal(
            2,
            (await shop.GetJson($"/api/batches/{batch}")).GetProperty("batch").GetProperty("nextStep").GetInt32()
        );
    }

    [Fact]
    public async Task Where_nothing_is_measured_readings_are_refused()
    {
        await using var shop = await Measured();
        var batch = await ExampleShop.StartTenBlanks(shop);

        var answer = await shop.Send(
            HttpMethod.Post,
            $"/api/batches/{batch}/steps/1/record",
            new
            {
                passed = 10,
                rejected = Array.Empty<object>(),
                measured = new[] { 3.1 },
            }
        );

        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("measured", problem.GetProperty("field").GetString());
    }

    private static async Task<ShopHost> Measured(string unit = "millimetre")
    {
        var shop = await ShopHost.Start();
        var settings = JsonSerializer.SerializeToNode(ExampleShop.Settings)!;
        settings["lengthUnit"] = unit;
        await shop.PutJson("/api/shop", settings);
        return shop;
    }

    /// <summary>A batch whose next step is the one that is measured.</summary>
    private static async Task<string> StartAndSoak(ShopHost shop)
    {
        var batch = await ExampleShop.StartTenBlanks(shop);
        var current = await shop.Owner.GetAsync("/api/models/clarinet", TestContext.Current.CancellationToken);
        var model = JsonSerializer.SerializeToNode(ExampleShop.Clarinet)!;
        model["route"]![0]!["steps"]![1]!["measure"] = new JsonObject { ["target"] = 3.10, ["tolerance"] = 0.05 };
        await ShopHost.Read(
            await shop.Send(
                HttpMethod.Put,
                "/api/models/clarinet",
                model,
                [("If-Match", current.Headers.ETag?.Tag ?? "*")]
            )
        );
        await AtTheBench.Record(shop, batch, 1, AtTheBench.Kept(10));
        return batch;
    }
}
