using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using ReedShop.Tests;

namespace ReedShop.Browser.Tests;

/// <summary>What holds on every page of the shop, in a light and in a dark room.</summary>
[Collection(FurnishedShop.Collection)]
public sealed class EveryPageFacts(FurnishedShop furnished)
{
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
    };

    private OpenShop Shop => furnished.Shop;

    [Theory]
    [InlineData(ColorScheme.Light, 1360)]
    [InlineData(ColorScheme.Dark, 1360)]
    [InlineData(ColorScheme.Light, 360)]
    [InlineData(ColorScheme.Dark, 360)]
    public async Task Axe_finds_nothing(ColorScheme scheme, int width)
    {
        var owner = await Shop.NewOwner(width: width, scheme: scheme);
        var buyer = await Shop.NewBuyer(width: width, scheme: scheme);
        var found = new List<string>();
        foreach (var listed in furnished.Pages)
        {
            found.AddRange(await Look(listed.ForOwner ? owner : buyer, listed.Address));
        }

        Assert.True(found.Count == 0, string.Join('\n', found));
        Assert.Empty(Shop.AskedElsewhere);
        Assert.Empty(Shop.Complaints);
        await owner.Context.CloseAsync();
        await buyer.Context.CloseAsync();
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Axe_finds_nothing_before_the_shop_has_an_owner(ColorScheme scheme)
    {
        await using var shop = await OpenShop.Before(await ShopHost.Start());
        var page = await shop.NewBuyer(scheme: scheme);

        Assert.Empty(await Look(page, "/first-run"));
        Assert.Empty(shop.AskedElsewhere);
        Assert.Empty(shop.Complaints);
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Axe_finds_nothing_in_an_offer_and_in_refusals(ColorScheme scheme)
    {
        await using var shop = await OpenShop.Start();
        var buyer = await shop.NewBuyer(scheme: scheme);
        await buyer.GotoAsync("/");
        await buyer.GetByLabel("How many").FillAsync("2");
        await buyer.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();
        await buyer.Locator("#name").WaitForAsync();
        Assert.Empty(await Violations(buyer));

        await buyer.GotoAsync("/sign-in");
        await buyer.GetByLabel("Password").FillAsync("not the password");
        await buyer.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await buyer.GetByRole(AriaRole.Alert).WaitForAsync();
        Assert.Empty(await Violations(buyer));

        var owner = await shop.NewOwner(scheme: scheme);
        await owner.GotoAsync("/bench/tonight?minutes=none");
        await owner.GetByRole(AriaRole.Alert).WaitForAsync();
        Assert.Empty(await Violations(owner));
    }

    /// <summary>Neither where the menu is one scrolling row nor where it stands on several.</summary>
    [Theory]
    [InlineData(360)]
    [InlineData(1000)]
    public async Task Every_page_opens_at_its_top(int width)
    {
        var page = await Shop.NewOwner(script: false, width: width);
        foreach (var listed in furnished.Pages)
        {
            await page.GotoAsync(listed.Address);
            Assert.True(await page.EvaluateAsync<double>("scrollY") == 0, listed.Address);
        }

        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task No_page_of_the_owner_is_missing_from_the_list()
    {
        var listed = furnished.Pages.Select(page => page.Route).ToHashSet(StringComparer.Ordinal);
        var missing = ListedPage.OwnerRoutes(Shop.Host.Services).Where(route => !listed.Contains(route)).ToList();
        var owner = await Shop.NewOwner(script: false);
        var pages = new List<string>();
        foreach (var route in missing)
        {
            await owner.GotoAsync(route);
            pages.AddRange(Uri.UnescapeDataString(new Uri(owner.Url).AbsolutePath) == route ? [route] : []);
        }

        // What is left only sends on to a page of the list.
        Assert.Empty(pages);
        await owner.Context.CloseAsync();
    }

    [Fact]
    public async Task Where_motion_is_unwelcome_nothing_moves()
    {
        var page = await Shop.NewOwner();
        await page.GotoAsync(furnished.Pages.First(listed => listed.Route == "/orders/{id}").Address);
        Assert.NotEqual(0, await SlowestMotion(page));

        await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
        foreach (var listed in furnished.Pages)
        {
            await page.GotoAsync(listed.Address);
            Assert.True(await SlowestMotion(page) <= 0.01, listed.Address);
        }

        await page.Context.CloseAsync();
    }

    private static async Task<IEnumerable<string>> Look(IPage page, string address)
    {
        var answer = await page.GotoAsync(address);
        Assert.Equal(200, answer!.Status);
        Assert.Matches("^[a-z]{2}(-[A-Z]{2})?$", await page.Locator("html").GetAttributeAsync("lang"));
        return (await Violations(page)).Select(violation => $"{address}: {violation}");
    }

    private static async Task<IReadOnlyList<string>> Violations(IPage page)
    {
        var result = await page.RunAxe(Rules);
        Assert.NotEmpty(result.Passes);
        return
        [
            .. result.Violations.SelectMany(rule =>
                rule.Nodes.Select(node => $"{rule.Id}: {node.Html} {node.Any.FirstOrDefault()?.Message}")
            ),
        ];
    }

    private static Task<double> SlowestMotion(IPage page) =>
        page.EvaluateAsync<double>(
            """
            () => Math.max(...[...document.querySelectorAll("*")].flatMap((element) => {
              const style = getComputedStyle(element);
              return `${style.transitionDuration},${style.animationDuration}`.split(",").map(parseFloat);
            }))
            """
        );
}
