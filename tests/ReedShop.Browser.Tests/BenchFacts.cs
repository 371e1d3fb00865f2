using Microsoft.Playwright;
using ReedShop.Tests;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

public sealed class BenchFacts
{
    private static readonly string[] OwnerPages =
    [
        "/bench/week",
        "/bench/today?celsius=20&humidity=65",
        "/bench/orders",
        "/bench/batches",
        "/bench/drawer",
        "/bench/yields?model=clarinet&strength=3&quantity=4&confidence=90",
    ];

    [Fact]
    public async Task The_bench_opens_for_the_owner_only()
    {
        await using var shop = await OpenShop.Start();
        var guest = await shop.NewBuyer();

        await guest.GotoAsync("/bench/week");

        await Expect(guest.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task An_order_is_a_thread_through_the_days_and_nights_of_the_week()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        var page = await shop.NewOwner();

        await page.GotoAsync("/bench/week");

        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "Batch 1", Exact = true })).ToBeVisibleAsync();
        await Expect(page.Locator(".week section.day")).ToHaveCountAsync(7);
        await Expect(page.Locator(".week section.night")).ToHaveCountAsync(7);
        await Expect(page.Locator(".week .lies").First).ToBeVisibleAsync();
        await Expect(page.Locator(".week .name .mark")).ToHaveTextAsync("on time");
    }

    [Fact]
    public async Task A_sitting_is_moved_after_a_look_at_what_follows()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        var page = await shop.NewOwner(script: false);
        await page.GotoAsync("/bench/week");
        await page.GetByRole(AriaRole.Link, new() { Name = "move batch 1, coarse flatten" }).ClickAsync();

        await page.Locator("#to").FillAsync("2027-03-05");
        await page.GetByRole(AriaRole.Button, new() { Name = "See what follows" }).ClickAsync();
        await Expect(page.Locator("#move")).ToContainTextAsync("→ Fri 5 March");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it so" }).ClickAsync();

        await Expect(page.Locator("section.day[aria-label='Fri 5 March'] .do")).ToContainTextAsync("your day");
    }

    [Fact]
    public async Task A_sitting_is_dragged_to_another_day_looked_at_kept_and_taken_back()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        var page = await shop.NewOwner();
        await page.GotoAsync("/bench/week");
        var before = await page.Locator(".week").InnerTextAsync();
        var friday = page.Locator("section.day[aria-label='Fri 5 March']");

        await page.Locator(".week .do", new() { HasText = "coarse flatten" }).DragToAsync(friday);
        await Expect(page.Locator("#move")).ToContainTextAsync("→ Fri 5 March");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it so" }).ClickAsync();
        await Expect(friday.Locator(".do")).ToContainTextAsync("your day");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Undo" })).ToHaveCountAsync(0);
        Assert.Equal(before, await page.Locator(".week").InnerTextAsync());
        Assert.Empty(shop.Complaints);
    }

    [Fact]
    public async Task A_closed_day_is_refused_and_nothing_moves()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        var page = await shop.NewOwner();
        await page.GotoAsync("/bench/week");
        var before = await page.Locator(".week").InnerTextAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "move batch 1, coarse flatten" }).ClickAsync();

        await page.Locator("#to").FillAsync("2027-03-07");
        await page.GetByRole(AriaRole.Button, new() { Name = "See what follows" }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("The bench is closed on Sun 7 March.");
        Assert.Equal(before, await page.Locator(".week").InnerTextAsync());
    }

    [Fact]
    public async Task A_step_is_recorded_at_the_bench_and_taken_back()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        shop.Host.Time.SetUtcNow(ShopHost.Monday.AddDays(1).AddHours(9));
        var page = await shop.NewOwner(width: 360);
        await page.GotoAsync("/bench/today");
        var done = page.GetByRole(AriaRole.Button, new() { Name = "Done: coarse flatten" });

        await done.ClickAsync();
        await Expect(page.GetByText("✓ Batch 1, coarse flatten")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo coarse flatten of batch 1" }).ClickAsync();

        await Expect(done).ToBeVisibleAsync();
    }

    [Fact]
    public async Task The_counts_that_do_not_add_up_come_back_with_what_was_typed()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        shop.Host.Time.SetUtcNow(ShopHost.Monday.AddDays(1).AddHours(9));
        var page = await shop.NewOwner(script: false);
        await page.GotoAsync("/bench/today");
        await page.GetByText("something went wrong").First.ClickAsync();
        await page.GetByLabel("crack").First.FillAsync("1");
        await page.GetByLabel("kept").First.FillAsync("1");

        await page.GetByRole(AriaRole.Button, new() { Name = "Done: coarse flatten" }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("The counts add up to 2");
        await Expect(page.GetByLabel("crack").First).ToHaveValueAsync("1");
    }

    [Theory]
    [InlineData(1360)]
    [InlineData(360)]
    public async Task Every_page_fits_its_screen_and_asks_nobody_else(int width)
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        await OrderFromDrawer(shop);
        var page = await shop.NewOwner(width: width);
        foreach (var address in OwnerPages.Append("/"))
        {
            await page.GotoAsync(address);
            Assert.Equal(0, await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"));
        }

        Assert.Empty(shop.AskedElsewhere);
        Assert.Empty(shop.Complaints);
    }

    /// <summary>An order that is ready, with the form by which it is shipped.</summary>
    private static async Task OrderFromDrawer(OpenShop shop)
    {
        var counted = new
        {
            model = ExampleReeds.Clarinet,
            strength = 4,
            count = 2,
        };
        await shop.Host.PostJson("/api/drawer/count", counted);
        await shop.Order(4, 2);
    }
}
