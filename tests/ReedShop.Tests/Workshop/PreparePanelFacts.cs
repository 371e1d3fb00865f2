using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Workshop;

/// <summary>What the page of the drawer says of idle evenings.</summary>
public sealed class PreparePanelFacts
{
    [Fact]
    public async Task While_no_model_is_listed_there_is_nothing_to_prepare()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var panel = await Panel(owner);

        Assert.Contains("No model is listed yet, so there is nothing to prepare.", panel, StringComparison.Ordinal);
        Assert.Contains("<a href=\"/bench/models\">Add a model</a>", panel, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_model_without_a_rest_on_the_shelf_needs_no_preparation()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await shop.PutJson("/api/models/clarinet", ExampleShop.Clarinet);

        var panel = await Panel(owner);

        Assert.Contains("No model that is sold rests on the shelf", panel, StringComparison.Ordinal);
        Assert.DoesNotContain("No model is listed yet", panel, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_run_that_finds_an_idle_evening_names_its_days()
    {
        await using var shop = await ShopWithAnOrder();
        using var owner = await Visitor.Owner(shop);

        var panel = await Panel(owner);

        Assert.Contains($"of lot {ExampleReeds.KindLot}, Tue 2 Mar", panel, StringComparison.Ordinal);
        Assert.DoesNotContain("no run finds its place yet", panel, StringComparison.Ordinal);
    }

    /// <summary>Five minutes a week are open, in which hardly a set-up is done.</summary>
    [Fact]
    public async Task A_run_without_a_place_says_that_evenings_or_rack_are_full()
    {
        await using var shop = await ShopWithAnOrder();
        using var owner = await Visitor.Owner(shop);
        var settings = (await shop.GetJson("/api/shop")).Deserialize<Dictionary<string, object>>()!;
        settings["hours"] = new { monday = new[] { new { from = "19:00", to = "19:05" } } };
        await shop.PutJson("/api/shop", settings, "\"1\"");

        var panel = await Panel(owner);

        Assert.Contains(
            $"of lot {ExampleReeds.KindLot}, but no run finds its place yet: the evenings or the rack are full",
            panel,
            StringComparison.Ordinal
        );
    }

    private static async Task<ShopHost> ShopWithAnOrder()
    {
        var shop = await ExampleReeds.ShopWithHistory();
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 4)));
        await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        return shop;
    }

    private static async Task<string> Panel(Visitor owner)
    {
        var page = WebUtility.HtmlDecode(await owner.Read("/bench/drawer"));
        var panel = page[page.IndexOf("id=\"prepare\"", StringComparison.Ordinal)..];
        return panel[..panel.IndexOf("</section>", StringComparison.Ordinal)];
    }
}
