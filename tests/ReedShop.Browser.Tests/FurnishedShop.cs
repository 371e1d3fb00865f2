using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>
/// One demo shop for all facts that only look, so that every page has much to show: thirty orders, a step just recorded,
/// a damp night, a date that has moved, a buyer who would exchange reeds.
/// </summary>
public sealed class FurnishedShop : IAsyncLifetime
{
    public const string Collection = "the furnished shop";

    internal OpenShop Shop { get; private set; } = null!;

    internal IReadOnlyList<ListedPage> Pages { get; private set; } = [];

    public async ValueTask InitializeAsync()
    {
        Shop = await OpenShop.Furnished();
        var order = await MoveADate();
        var shipped = await AskToExchange();
        var batch = await RecordAStep();
        var (sitting, day) = await FirstSitting();
        Pages = ListedPage.All(order, shipped, batch, sitting, day);
    }

    public ValueTask DisposeAsync() => Shop.DisposeAsync();

    private async Task<string> RecordAStep()
    {
        var batches = await Shop.Host.GetJson("/api/batches?limit=200");
        var batch = Items(batches).First(item => item.GetProperty("stage").GetString() == "onBench");
        var id = batch.GetProperty("id").GetString()!;
        var blanks = batch.GetProperty("blanks").GetInt32();
        await Shop.Host.PostJson(
            $"/api/batches/{id}/steps/{batch.GetProperty("nextStep").GetInt32()}/record",
            new { passed = blanks - 1, rejected = new[] { new { reason = "crack", count = 1 } } }
        );
        return id;
    }

    private async Task<string> MoveADate()
    {
        var orders = await Shop.Host.GetJson("/api/orders?limit=100");
        var order = Items(orders).Select(row => row.GetProperty("order")).First(IsAccepted);
        var id = order.GetProperty("id").GetString()!;
        var path = $"/bench/orders/{id}/watch";
        var owner = await Shop.NewOwner(script: false);
        await owner.GotoAsync(path);
        await owner.GetByLabel("Ships by").FillAsync("2027-06-29");
        await owner.GetByRole(AriaRole.Button, new() { Name = "Move the date" }).ClickAsync();
        await Expect(owner.GetByText("the buyer has not answered yet")).ToBeVisibleAsync();
        await owner.Context.CloseAsync();
        return id;
    }

    private async Task<string> AskToExchange()
    {
        var orders = await Shop.Host.GetJson("/api/orders?limit=100");
        var order = Items(orders)
            .Select(row => row.GetProperty("order"))
            .First(order => order.GetProperty("status").GetString() == "ready");
        var id = order.GetProperty("id").GetString()!;
        var shipped = await Shop.Host.PostJson($"/api/orders/{id}/ship", new { });
        var sent = shipped.GetProperty("parcels")[0].GetProperty("reeds")[0];
        var (model, strength) = (sent.GetProperty("model").GetString(), sent.GetProperty("strength").GetDouble());
        await Shop.Host.PostJson(
            $"/api/orders/{id}/exchange",
            new
            {
                model,
                strength,
                to = strength == 3 ? 2.5 : 3,
                quantity = 1,
            }
        );
        return id;
    }

    /// <summary>With the day it stands on, which it may always have: what was recorded is still being planned anew.</summary>
    private async Task<(string Id, string Day)> FirstSitting()
    {
        var week = await Shop.Host.GetJson("/api/week");
        while (week.GetProperty("outdated").GetBoolean())
        {
            await Task.Delay(100, TestContext.Current.CancellationToken);
            week = await Shop.Host.GetJson("/api/week");
        }

        var days = week.GetProperty("days").EnumerateArray();
        var sitting = days.SelectMany(day => day.GetProperty("sittings").EnumerateArray()).First();
        return (sitting.GetProperty("id").GetString()!, sitting.GetProperty("date").GetString()!);
    }

    private static bool IsAccepted(JsonElement order) => order.GetProperty("status").GetString() == "accepted";

    private static JsonElement.ArrayEnumerator Items(JsonElement list) => list.GetProperty("items").EnumerateArray();
}

[CollectionDefinition(FurnishedShop.Collection)]
#pragma warning disable CA1711 // a collection of tests, as the framework calls it
public sealed class FurnishedShopCollection : ICollectionFixture<FurnishedShop>;
#pragma warning restore CA1711
