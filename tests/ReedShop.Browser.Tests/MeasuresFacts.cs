using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>What is measured is said on the page of models, with the mouse and without script.</summary>
public sealed class MeasuresFacts
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_step_gets_a_measure_and_a_slip_keeps_what_was_typed(bool script)
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewOwner(script);
        await page.GotoAsync("/bench/models");
        await page.GetByText("What is measured: B-flat clarinet, 1 step").ClickAsync();

        await page.GetByLabel("Thickness wanted after profile").FillAsync("1.95");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save what is measured" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("profile");
        await Expect(page.GetByLabel("Thickness wanted after profile")).ToHaveValueAsync("1.95");
        await page.GetByLabel("May be off after profile").FillAsync("0.1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save what is measured" }).ClickAsync();

        await Expect(page.GetByText("What is measured: B-flat clarinet, 2 steps")).ToBeVisibleAsync();
        Assert.DoesNotContain(shop.Complaints, complaint => !complaint.Contains("422", StringComparison.Ordinal));
    }
}
