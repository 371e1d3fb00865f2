using Microsoft.Playwright;
using ReedShop.Tests;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

public sealed class ExchangeFacts
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_buyer_asks_for_another_strength_and_reads_the_answer_on_the_order(bool script)
    {
        await using var shop = await OpenShop.Start();
        var address = await Shipped(shop);
        var buyer = await shop.NewBuyer(script);
        await buyer.GotoAsync(address);
        await buyer.GetByLabel("Unopened reeds").SelectOptionAsync("3½ (B-flat clarinet)");
        await buyer.GetByLabel("How many").FillAsync("2");
        await buyer.GetByLabel("For strength").SelectOptionAsync("3");
        await buyer.GetByRole(AriaRole.Button, new() { Name = "Ask to exchange" }).ClickAsync();
        await Expect(buyer.Locator("#exchange li"))
            .ToHaveTextAsync("2 of 3½ (B-flat clarinet) for 3: waits for an answer.");

        var owner = await shop.NewOwner(script);
        await owner.GotoAsync("/bench/orders");
        await owner.GetByLabel("Your sentence").FillAsync("Send them by post; two of 3 leave on Thursday.");
        await owner.GetByRole(AriaRole.Button, new() { Name = "Yes, exchange them" }).ClickAsync();
        await Expect(owner.GetByText("2 of 3½ (clarinet) for 3: yes")).ToBeVisibleAsync();
        await Expect(owner.GetByLabel("Your sentence")).ToHaveCountAsync(0);

        await buyer.ReloadAsync();
        await Expect(buyer.Locator("#exchange li"))
            .ToHaveTextAsync("2 of 3½ (B-flat clarinet) for 3: Yes. Send them by post; two of 3 leave on Thursday.");
        await Expect(buyer.GetByText("your wish to exchange reeds")).ToBeVisibleAsync();
        Assert.Empty(shop.Complaints);
    }

    private static async Task<string> Shipped(OpenShop shop)
    {
        var reeds = new
        {
            model = ExampleReeds.Clarinet,
            strength = 3.5,
            count = 4,
        };
        await shop.Host.PostJson("/api/drawer/count", reeds);
        await shop.Order();
        var orders = await shop.Host.GetJson("/api/orders");
        var id = orders.GetProperty("items")[0].GetProperty("order").GetProperty("id").GetString();
        await shop.Host.PostJson($"/api/orders/{id}/ship", new { });
        return $"/orders/{id}";
    }
}
