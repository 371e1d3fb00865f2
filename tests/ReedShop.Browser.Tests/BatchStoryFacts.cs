using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>The page of a batch, with the mouse and without script.</summary>
public sealed class BatchStoryFacts
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_batch_is_split_worked_on_each_tray_and_tells_it_all_together(bool script)
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewOwner(script);
        var id = (await shop.Host.PostJson("/api/batches", new { model = "clarinet", blanks = 10 }))
            .GetProperty("id")
            .GetString();
        await page.GotoAsync($"/bench/batches/{id}");

        await page.GetByText("Split into trays").ClickAsync();
        await page.GetByLabel("Blanks on each tray").FillAsync("6 4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Split", Exact = true }).ClickAsync();
        await Expect(page.GetByText("Trays of this batch")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Done: coarse flatten" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "1a, 4 blanks" }).ClickAsync();
        await page.GetByText("something went wrong").ClickAsync();
        await page.GetByRole(AriaRole.Spinbutton, new() { Name = "crack" }).FillAsync("1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Done: coarse flatten" }).ClickAsync();

        var tally = page.GetByRole(AriaRole.Row, new() { Name = "coarse flatten" });
        await Expect(tally).ToContainTextAsync("9");
        await Expect(tally).ToContainTextAsync("crack, 1");
        await Expect(page.Locator(".thread li").First).ToContainTextAsync("coarse flatten: 3 kept; rejected: crack, 1");
        await Expect(page.GetByText("split into 1, 1a")).ToBeVisibleAsync();
        await page.GetByText("Merge trays that stand").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Merge into 1a" }).ClickAsync();

        await Expect(page.GetByText("now 9")).ToBeVisibleAsync();
        Assert.Empty(shop.Complaints);
    }
}
