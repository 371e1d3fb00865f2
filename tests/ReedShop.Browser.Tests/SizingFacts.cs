using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

public sealed class SizingFacts
{
    [Fact]
    public async Task The_answer_follows_the_slider_and_stays_in_the_address()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewOwner();
        await page.GotoAsync("/bench/yields?model=clarinet&strength=3&quantity=4&confidence=90&from=cane");
        var few = await Blanks(page);

        await page.GetByRole(AriaRole.Slider, new() { Name = "Good reeds wanted" }).FillAsync("8");

        await Expect(page.Locator("#sizing-answer .sized b").First).Not.ToHaveTextAsync($"Start {few}.");
        Assert.True(await Blanks(page) > few);
        Assert.Contains("quantity=8", page.Url, StringComparison.Ordinal);
        await Expect(page.GetByLabel("Good reeds wanted").First).ToHaveValueAsync("8");
        Assert.Empty(shop.Complaints);
    }

    private static async Task<int> Blanks(IPage page)
    {
        var told = await page.Locator("#sizing-answer .sized b").First.InnerTextAsync();
        return int.Parse(told["Start ".Length..].TrimEnd('.'), System.Globalization.CultureInfo.InvariantCulture);
    }
}
