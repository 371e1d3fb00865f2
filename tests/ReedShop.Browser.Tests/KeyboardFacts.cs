using Microsoft.Playwright;
using ReedShop.Tests;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>The two journeys that matter most, by keyboard alone.</summary>
public sealed class KeyboardFacts
{
    [Fact]
    public async Task A_buyer_orders()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer();
        var hands = new Hands(page);
        await page.GotoAsync("/");

        await hands.Press("Skip to the content");
        await Expect(page.Locator("main")).ToBeFocusedAsync();
        await hands.Type("How many", "2");
        await hands.Press("a half strength either side would do as well", "Space");
        await Expect(page.GetByLabel("a half strength either side")).ToBeCheckedAsync();
        await hands.Press("See the date");
        await Expect(page.GetByLabel("Town")).ToBeVisibleAsync();
        await hands.Type("Name", "Ana Example");
        await hands.Type("E-mail", "ana@example.org");
        await hands.Type("Street and number", "1 Quay");
        await hands.Type("Postal code", "1000-001");
        await hands.Type("Town", "Harbour");
        await hands.Type("Country", "PT");
        await hands.Press("Order");

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Order 1" })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task The_maker_signs_in_and_records_the_first_step_of_the_day()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        shop.Host.Time.SetUtcNow(ShopHost.Monday.AddDays(1).AddHours(9));
        var page = await shop.NewBuyer();
        var hands = new Hands(page);
        await page.GotoAsync("/bench/week");
        await Expect(page.GetByLabel("Password")).ToBeFocusedAsync();

        await page.Keyboard.TypeAsync(shop.Password);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "This week at the bench" })).ToBeVisibleAsync();
        await hands.Press("Today");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Today at the bench" })).ToBeVisibleAsync();
        await hands.Press("Done: coarse flatten");

        await Expect(page.GetByText("✓ Batch 1, coarse flatten")).ToBeVisibleAsync();
    }
}

/// <summary>The focus on every page, from its first stop to its last.</summary>
[Collection(FurnishedShop.Collection)]
public sealed class FocusFacts(FurnishedShop furnished)
{
    // Stops beside one another overlap in height; one that lies higher by more than this comes too late.
    private const double MostUpwards = 30;

    [Fact]
    public async Task Every_page_begins_with_a_way_past_its_menu_and_shows_every_stop()
    {
        var page = await furnished.Shop.NewOwner();
        foreach (var listed in furnished.Pages)
        {
            await page.GotoAsync(listed.Address);
            var stops = await FromTheTop(page);

            Assert.True(stops.Count > 2, listed.Address);
            Assert.Equal("Skip to the content", stops[0].Name);
        }

        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task On_a_phone_the_focus_goes_down_the_page()
    {
        var page = await furnished.Shop.NewOwner(width: 360);
        foreach (var listed in furnished.Pages)
        {
            await page.GotoAsync(listed.Address);
            var stops = (await FromTheTop(page, asWritten: false)).Skip(1).ToArray();

            foreach (var (before, stop) in stops.Zip(stops.Skip(1)))
            {
                Assert.True(
                    stop.Bottom >= before.Top - MostUpwards,
                    $"{listed.Address}: {stop.Html} lies above {before.Html}"
                );
            }
        }

        await page.Context.CloseAsync();
    }

    /// <summary>The sign-in page puts the focus into its one field; there the first stop is gone back to.</summary>
    private static async Task<IReadOnlyList<Hands.Stop>> FromTheTop(IPage page, bool asWritten = true)
    {
        await page.EvaluateAsync("document.activeElement?.blur()");
        await page.EvaluateAsync(
            "document.body.tabIndex = -1; document.body.focus(); document.body.removeAttribute('tabindex')"
        );
        return await new Hands(page, asWritten).AllStops();
    }
}
