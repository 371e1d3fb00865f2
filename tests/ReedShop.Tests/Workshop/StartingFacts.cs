using System.Net;
using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Workshop;

namespace ReedShop.Tests.Workshop;

public sealed class StartingFacts
{
    private static readonly Dictionary<string, ReedModel> Models = new(StringComparer.Ordinal)
    {
        ["clarinet"] = new()
        {
            Key = "clarinet",
            Name = "B-flat clarinet",
            Instrument = "B-flat clarinet",
            Cut = "",
            Strengths = [Strength.OfQuarters(14)],
            Route = ReadyRoutes.Clarinet.Route,
        },
    };

    [Fact]
    public void The_examples_on_the_page_can_be_read()
    {
        var promise = StartingText.PromiseLine;
        var read = new StartingText(
            StartingText.DrawerLine,
            StartingText.ShelfLine,
            StartingText.BatchLine + "\nclarinet, shelf, 20, fine flatten",
            promise + "\n" + promise.Replace("3½, 10", "4, 2", StringComparison.Ordinal)
        )
            .Parse(Models)
            .Value;

        Assert.Equal(new DrawerCountWish("clarinet", Strength.OfQuarters(14), 12), Assert.Single(read.Drawer));
        Assert.Equal(new StartingShelf("clarinet", 30, "north lot"), Assert.Single(read.Shelf));
        Assert.Equal(
            (8, 8, new DateOnly(2027, 2, 26)),
            (read.Batches[0].Blanks, read.Batches[0].NextStep, read.Batches[0].LastWorkedOn)
        );
        Assert.Null(read.Batches[1].Aim);
        Assert.Equal([10, 2], Assert.Single(read.Promises).Lines.Select(line => line.Quantity));
    }

    [Theory]
    [InlineData("clarinet, 3.3, 12", "", "", "drawer")]
    [InlineData("", "clarinet, many", "", "shelf")]
    [InlineData("", "", "clarinet, 3½, 8, polish", "batches")]
    [InlineData("", "", "oboe, 3½, 8, play in", "batches")]
    public void A_line_that_cannot_be_read_is_shown_with_one_that_can(
        string drawer,
        string shelf,
        string batches,
        string field
    )
    {
        var refusal = new StartingText(drawer, shelf, batches, "").Parse(Models).Refusal;
        Assert.Equal(field, refusal?.Field);
        Assert.StartsWith("lines such as clarinet", refusal?.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_typed_on_the_first_day_is_on_the_bench_and_what_is_refused_stays_typed()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var wrong = await owner.Post(
            "/bench/start",
            ("drawer", "clarinet, 3½"),
            ("shelf", ""),
            ("batches", ""),
            ("promises", "")
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        Assert.Contains(
            "clarinet, 3½</textarea>",
            WebUtility.HtmlDecode(await wrong.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)),
            StringComparison.Ordinal
        );

        var typed = await owner.Post(
            "/bench/start",
            ("drawer", StartingText.DrawerLine),
            ("shelf", ""),
            ("batches", StartingText.BatchLine),
            ("promises", StartingText.PromiseLine)
        );

        Assert.Equal("/bench/week", typed.Headers.Location?.OriginalString);
        var order = Assert.Single((await shop.GetJson("/api/orders")).GetProperty("items").EnumerateArray());
        Assert.Equal("ready", order.GetProperty("order").GetProperty("status").GetString());
        Assert.Single((await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray());
    }
}
