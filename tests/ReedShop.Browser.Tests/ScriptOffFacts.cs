using Microsoft.Playwright;
using ReedShop.Tests;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>
/// What the maker does every evening works without script. Ordering and moving a sitting without it are told by the
/// facts of the order form and of the bench.
/// </summary>
public sealed class ScriptOffFacts
{
    [Fact]
    public async Task A_step_is_recorded_with_its_rejects_and_taken_back()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        shop.Host.Time.SetUtcNow(ShopHost.Monday.AddDays(1).AddHours(9));
        var page = await shop.NewOwner(script: false);
        await page.GotoAsync("/bench/today");

        await page.GetByText("something went wrong").First.ClickAsync();
        await page.GetByLabel("crack").First.FillAsync("1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Done: coarse flatten" }).ClickAsync();
        await Expect(page.Locator(".done-list").First).ToContainTextAsync("rejected: crack, 1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo coarse flatten of batch 1" }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Done: coarse flatten" })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task A_damp_night_is_noted_and_the_batch_dries_once_more()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        shop.Host.Time.SetUtcNow(ShopHost.Monday.AddDays(1).AddHours(9));
        var page = await shop.NewOwner(script: false);
        await page.GotoAsync("/bench/today");
        await page.GetByRole(AriaRole.Button, new() { Name = "Done: coarse flatten" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Done: first rack" }).ClickAsync();
        await Expect(page.GetByText("✓ Batch 1, first rack")).ToBeVisibleAsync();
        shop.Host.Time.SetUtcNow(ShopHost.Monday.AddDays(2).AddHours(9));
        await shop.Host.Tick("plan-sweep");
        await page.GotoAsync("/bench/today");

        await page.GetByRole(AriaRole.Button, new() { Name = "Still damp" }).ClickAsync();

        await Expect(page.Locator(".done-list")).ToContainTextAsync("1 damp night noted");
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Still damp" })).ToHaveCountAsync(0);
    }
}
