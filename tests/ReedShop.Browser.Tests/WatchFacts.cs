using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using ReedShop.Tests;
using ReedShop.Workshop;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>An order of six whose batch is nearly lost on its first evening.</summary>
public sealed class WatchFacts
{
    [Theory]
    [InlineData(true, 1360)]
    [InlineData(false, 360)]
    public async Task A_promise_at_risk_is_looked_at_moved_and_answered(bool script, int width)
    {
        await using var shop = await OpenShop.Start();
        var order = await Troubled(shop);
        var maker = await shop.NewOwner(script, width);
        await maker.GotoAsync("/bench/orders");
        await Expect(maker.Locator("#order-1 h2 .mark")).ToHaveTextAsync("to watch");

        await maker.GetByRole(AriaRole.Link, new() { Name = "What would help" }).ClickAsync();
        await Expect(maker.Locator(".rescues li").First).ToContainTextAsync("in 100, if you");
        await FitsItsScreen(maker);
        var day = await maker.GetByLabel("Ships by").InputValueAsync();
        await maker.GetByLabel("A word to the buyer").FillAsync("The cane was worse than it looked.");
        await maker.GetByRole(AriaRole.Button, new() { Name = "Move the date and tell the buyer" }).ClickAsync();
        await Expect(maker.Locator("#order-1")).ToContainTextAsync("the buyer has not answered yet");

        var buyer = await shop.NewBuyer(script, width);
        await buyer.GotoAsync($"/orders/{order}");
        await Expect(buyer.Locator(".offer .date time")).ToHaveAttributeAsync("datetime", day);
        await FitsItsScreen(buyer);
        await buyer.GetByRole(AriaRole.Button, new() { Name = "I wait for it" }).ClickAsync();
        await Expect(buyer.Locator("#moved")).ToContainTextAsync("You answered: wait.");
        Assert.Empty(shop.AskedElsewhere);
        Assert.Empty(shop.Complaints);
    }

    [Theory]
    [InlineData(1360)]
    [InlineData(360)]
    public async Task Minutes_of_tonight_are_given_to_what_needs_them(int width)
    {
        await using var shop = await OpenShop.Start();
        await Troubled(shop);
        shop.Host.Time.SetUtcNow(ShopHost.Monday.AddDays(7));
        await shop.Host.Tick("plan-sweep");
        var page = await shop.NewOwner(script: false, width);
        await page.GotoAsync("/bench/today");
        await page.GetByRole(AriaRole.Link, new() { Name = "Only some minutes tonight?" }).ClickAsync();

        await page.GetByLabel("Minutes you have").FillAsync("60");
        await page.GetByRole(AriaRole.Button, new() { Name = "Tell me" }).ClickAsync();

        await Expect(page.Locator(".step h2").First).ToBeVisibleAsync();
        await FitsItsScreen(page);
    }

    private static async Task FitsItsScreen(IPage page) =>
        Assert.Equal(0, await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"));

    private static async Task<string> Troubled(OpenShop shop)
    {
        var quote = await shop.Host.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 6)));
        var order = await shop.Host.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        var batch = (await shop.Host.GetJson("/api/batches")).GetProperty("items")[0];
        await shop.Host.PostJson(
            $"/api/batches/{batch.GetProperty("id").GetString()}/steps/1/record",
            new
            {
                passed = 1,
                rejected = new[] { new { reason = "warp", count = batch.GetProperty("blanks").GetInt32() - 1 } },
            }
        );
        await shop.Host.Within(services =>
            services.GetRequiredService<Outlooks>().Renew(TestContext.Current.CancellationToken)
        );
        return order.GetProperty("id").GetString()!;
    }
}
