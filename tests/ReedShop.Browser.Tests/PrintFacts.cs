using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>The sheets that hang over the bench.</summary>
[Collection(FurnishedShop.Collection)]
public sealed partial class PrintFacts(FurnishedShop furnished)
{
    private const int Days = 14;
    private static readonly DateOnly Monday = new(2027, 3, 1);
    private static readonly (int Short, int Long) A4Points = (595, 842);

    [Fact]
    public async Task A_day_is_one_upright_sheet()
    {
        var page = await furnished.Shop.NewOwner();
        var most = 0;
        for (var day = 0; day < Days; day++)
        {
            var address = $"/bench/today?date={Iso(Monday.AddDays(day))}";
            await page.GotoAsync(address);
            most = Math.Max(most, await page.Locator(".step").CountAsync());

            var printed = await Print(page);
            Assert.True(printed == (1, A4Points.Short, A4Points.Long), $"{address}: {printed}");
        }

        Assert.True(most >= 5, "no day had much to do");
        await page.Context.CloseAsync();
    }

    /// <summary>More steps than the demo ever brings on one day, as a shop with a helper may have.</summary>
    [Theory]
    [InlineData(9)]
    [InlineData(12)]
    [InlineData(15)]
    public async Task A_long_day_is_one_sheet_all_the_same(int steps)
    {
        var page = await furnished.Shop.NewOwner();
        await page.GotoAsync($"/bench/today?date={Iso(Monday.AddDays(5))}");
        await page.EvaluateAsync(
            """
            (steps) => {
              const list = document.querySelector(".steps");
              const longest = [...list.children].sort((one, other) => other.offsetHeight - one.offsetHeight)[0];
              list.replaceChildren(...Array.from({ length: steps }, () => longest.cloneNode(true)));
            }
            """,
            steps
        );

        Assert.Equal((1, A4Points.Short, A4Points.Long), await Print(page));
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_week_is_one_sheet_on_its_side()
    {
        var page = await furnished.Shop.NewOwner();
        var most = 0;
        for (var week = 0; week < 3; week++)
        {
            await page.GotoAsync($"/bench/week?from={Iso(Monday.AddDays(7 * week))}");
            most = Math.Max(most, await page.Locator(".week .name").CountAsync());

            Assert.Equal((1, A4Points.Long, A4Points.Short), await Print(page));
        }

        Assert.True(most >= 8, "no week had many batches");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task An_invoice_is_one_upright_sheet()
    {
        var orders = await furnished.Shop.Host.GetJson("/api/orders?limit=100");
        var open = orders
            .GetProperty("items")
            .EnumerateArray()
            .Select(item => item.GetProperty("order"))
            .First(order =>
                !order.GetProperty("paid").GetBoolean() && order.GetProperty("status").GetString() == "accepted"
            );
        var money = await furnished.Shop.Host.PostJson(
            $"/api/orders/{open.GetProperty("id").GetString()}/invoice",
            new { }
        );
        var page = await furnished.Shop.NewBuyer();
        await page.GotoAsync(money.GetProperty("papers")[0].GetProperty("url").GetString()!);
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Invoice 1", Exact = true })).ToBeVisibleAsync();

        Assert.Equal((1, A4Points.Short, A4Points.Long), await Print(page));
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_day_sheet_has_times_and_boxes_for_the_pen_and_nothing_to_press()
    {
        var page = await furnished.Shop.NewOwner();
        await page.GotoAsync("/bench/today");
        await Expect(page.Locator(".by-pen").First).ToBeHiddenAsync();

        await page.EmulateMediaAsync(new() { Media = Media.Print });

        await NothingToPress(page);
        foreach (var step in await page.Locator(".step").AllAsync())
        {
            await Expect(step.Locator("h2")).ToBeVisibleAsync();
            await Expect(step.Locator(".clock time")).ToBeVisibleAsync();
            await Expect(step.Locator(".by-pen")).ToContainTextAsync("rejected");
            await Expect(step.Locator(".by-pen")).ToBeVisibleAsync();
        }

        await Expect(page.Locator(".by-pen").First).ToHaveTextAsync("keptagainrejectedminutes");
        var box = await page.EvaluateAsync<string>(
            "getComputedStyle(document.querySelector('.by-pen > span'), '::after').borderTopWidth"
        );
        Assert.Equal("1px", box);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_week_sheet_has_its_days_and_nights_and_nothing_to_press()
    {
        var page = await furnished.Shop.NewOwner();
        await page.GotoAsync("/bench/week");

        await page.EmulateMediaAsync(new() { Media = Media.Print });

        await NothingToPress(page);
        await Expect(page.Locator(".week section.day:visible")).ToHaveCountAsync(7);
        await Expect(page.Locator(".week section.night:visible")).ToHaveCountAsync(7);
        await Expect(page.Locator(".week .do").First).ToBeVisibleAsync();
        await page.Context.CloseAsync();
    }

    private static Task NothingToPress(IPage page) =>
        Expect(page.Locator("nav:visible, form:visible, button:visible, input:visible, .move:visible"))
            .ToHaveCountAsync(0);

    /// <summary>How many pages come out of the printer, and how large the first is in points.</summary>
    private static async Task<(int Pages, int Wide, int High)> Print(IPage page)
    {
        var file = Encoding.Latin1.GetString(await page.PdfAsync(new() { PreferCSSPageSize = true }));
        var size = Size().Match(file);
        return (Sheet().Count(file), Points(size, "wide"), Points(size, "high"));
    }

    private static int Points(Match size, string name) =>
        (int)Math.Round(double.Parse(size.Groups[name].Value, CultureInfo.InvariantCulture));

    private static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Sheet();

    [GeneratedRegex(
        @"/MediaBox\s*\[\s*0\s+0\s+(?<wide>[\d.]+)\s+(?<high>[\d.]+)",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex Size();
}
