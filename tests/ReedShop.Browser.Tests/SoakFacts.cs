using Microsoft.Playwright;
using ReedShop.Tests;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>The timer of a soak, on the browser's own clock.</summary>
public sealed class SoakFacts
{
    /// <summary>Tones that were really started; a machine without a loudspeaker plays them all the same.</summary>
    private const string CountTones = """
        window.tones = 0;
        const start = OscillatorNode.prototype.start;
        OscillatorNode.prototype.start = function (...when) { window.tones++; return start.apply(this, when); };
        """;

    [Fact]
    public async Task A_soak_that_is_over_rings_until_it_is_told_to_be_quiet()
    {
        await using var shop = await OpenShop.Start();
        var page = await TodayWithSoak(shop);
        var soak = page.Locator("[data-soak-minutes]").First;
        var minutes = int.Parse(
            (await soak.GetAttributeAsync("data-soak-minutes"))!,
            System.Globalization.CultureInfo.InvariantCulture
        );

        await soak.GetByRole(AriaRole.Button, new() { Name = $"Start a timer of {minutes} min" }).ClickAsync();
        await page.Clock.RunForAsync(60_000L * (minutes - 1));
        Assert.Equal(0, await page.EvaluateAsync<int>("window.tones"));
        await page.Clock.RunForAsync(61_000);

        await Expect(soak).ToContainTextAsync("✓ soaked long enough");
        Assert.StartsWith("✓ soaked", await page.TitleAsync(), StringComparison.Ordinal);
        var rung = await page.EvaluateAsync<int>("window.tones");
        Assert.True(rung > 0);

        await soak.GetByRole(AriaRole.Button, new() { Name = "Quiet" }).ClickAsync();
        await page.Clock.RunForAsync(10_000);

        Assert.Equal(rung, await page.EvaluateAsync<int>("window.tones"));
        Assert.Empty(shop.Complaints);
    }

    /// <summary>Whoever comes back an hour later is told, and not startled.</summary>
    [Fact]
    public async Task A_soak_that_ended_long_ago_is_told_quietly()
    {
        await using var shop = await OpenShop.Start();
        var page = await TodayWithSoak(shop);
        await page.Locator("[data-soak-minutes] button").First.ClickAsync();

        await page.Clock.FastForwardAsync(3_600_000);
        await page.ReloadAsync();
        await page.Clock.RunForAsync(2_000);

        await Expect(page.Locator("[data-soak-minutes]").First).ToContainTextAsync("✓ soaked long enough");
        Assert.Equal(0, await page.EvaluateAsync<int>("window.tones"));
    }

    private static async Task<IPage> TodayWithSoak(OpenShop shop)
    {
        var quote = await shop.Host.PostJson("/api/quotes", ExampleReeds.Lines((3, 2)));
        await shop.Host.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        shop.Host.Time.SetUtcNow(ShopHost.Monday.AddDays(1).AddHours(9));
        var page = await shop.NewOwner(width: 360);
        await page.Clock.InstallAsync();
        await page.AddInitScriptAsync(CountTones);
        await page.GotoAsync("/bench/today");
        return page;
    }
}
