using Microsoft.Playwright;

namespace ReedShop.Browser.Tests;

/// <summary>Every page on a small phone.</summary>
[Collection(FurnishedShop.Collection)]
public sealed class NarrowFacts(FurnishedShop furnished)
{
    private const int Width = 360;
    private const int MostMenuPixels = 64;

    // A link within a sentence is as high as its line; everything else is hit with a finger.
    private const string SmallTargets = """
        (least) => [...document.querySelectorAll("main :is(a, button, input, select, textarea, summary), .top :is(a, button)")]
          .filter((element) => element.checkVisibility() && !element.closest(".skip, .sr"))
          .filter((element) => !(element.tagName === "A" && [...element.parentNode.childNodes].some((node) => node.nodeType === 3 && node.data.trim())))
          .filter((element) => { const box = element.getBoundingClientRect(); return box.width < least || box.height < least; })
          .map((element) => element.outerHTML.slice(0, 160))
        """;

    private const string SmallAtTheBench = """
        () => [...document.querySelectorAll(".record :is(button, input:not([type=hidden]), summary), .done-list button, .soak button")]
          .filter((element) => element.checkVisibility())
          .filter((element) => { const box = element.getBoundingClientRect(); return box.width < 44 || box.height < 44; })
          .map((element) => element.outerHTML.slice(0, 160))
        """;

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task No_page_scrolls_sideways_and_the_menu_takes_one_line(bool script)
    {
        var page = await furnished.Shop.NewOwner(script, Width);
        foreach (var listed in furnished.Pages)
        {
            await page.GotoAsync(listed.Address);

            var wide = await page.EvaluateAsync<int>("document.scrollingElement.scrollWidth");
            Assert.True(wide <= Width, $"{listed.Address} is {wide} wide");
            var menu = await page.Locator(".top").BoundingBoxAsync();
            Assert.True(menu!.Height <= MostMenuPixels, $"{listed.Address}: the menu is {menu.Height} high");
        }

        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task The_menu_shows_where_one_is_and_brings_one_everywhere()
    {
        var page = await furnished.Shop.NewOwner(script: false, Width);
        await page.GotoAsync("/bench/shop");

        await Assertions.Expect(page.Locator("nav [aria-current]")).ToBeInViewportAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Today", Exact = true }).ClickAsync();

        await Assertions
            .Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Today at the bench" }))
            .ToBeVisibleAsync();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task What_is_touched_is_large_enough()
    {
        var page = await furnished.Shop.NewOwner(width: Width);
        var small = new List<string>();
        foreach (var listed in furnished.Pages)
        {
            await page.GotoAsync(listed.Address);
            await page.EvaluateAsync("document.querySelectorAll('details').forEach((each) => each.open = true)");
            small.AddRange(
                (await page.EvaluateAsync<string[]>(SmallTargets, 24)).Select(it => $"{listed.Address}: {it}")
            );
            small.AddRange(
                (await page.EvaluateAsync<string[]>(SmallAtTheBench)).Select(it => $"{listed.Address}: {it}")
            );
        }

        Assert.True(small.Count == 0, string.Join('\n', small));
        await page.Context.CloseAsync();
    }
}
