using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>The receipt of an order, on screen and on paper.</summary>
public sealed partial class ReceiptFacts
{
    [Fact]
    public async Task A_receipt_says_what_was_ordered_what_it_costs_and_when_it_was_paid_in_the_buyers_language()
    {
        await using var shop = await OpenShop.Start();
        await shop.Order(quantity: 20);
        var order = (await shop.Host.GetJson("/api/orders")).GetProperty("items")[0].GetProperty("order");
        var page = await shop.NewBuyer(script: false, locale: "de-DE");
        await page.GotoAsync($"/orders/{order.GetProperty("id").GetString()}");
        await page.GetByRole(AriaRole.Link, new() { Name = "Beleg zum Ausdrucken" }).ClickAsync();

        var receipt = page.Locator(".receipt");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Beleg zur Bestellung 1" })).ToBeVisibleAsync();
        await Expect(receipt).ToContainTextAsync("Harbour reeds, maker@example.org");
        await Expect(receipt).ToContainTextAsync("Montag, 1. März 2027");
        await Expect(receipt).ToContainTextAsync("B-Klarinette");
        await Expect(receipt.Locator("tfoot")).ToContainTextAsync("70,00\u00A0€");
        await Expect(receipt).ToContainTextAsync("noch nicht bezahlt");
        await Expect(receipt).ToContainTextAsync("Steuern, deren Regeln von Ort zu Ort verschieden sind");

        await shop.Host.PostJson($"/api/orders/{order.GetProperty("id").GetString()}/paid", new { });
        await page.ReloadAsync();
        await Expect(receipt).ToContainTextAsync("bezahlt am Montag, 1. März 2027");
        Assert.Empty(shop.Complaints);
    }

    /// <summary>As long as an order may be: twenty lines.</summary>
    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public async Task The_longest_receipt_is_one_sheet_with_nothing_to_press(string paper)
    {
        await using var shop = await OpenShop.Start();
        await shop.Order();
        var order = (await shop.Host.GetJson("/api/orders")).GetProperty("items")[0].GetProperty("order");
        var page = await shop.NewBuyer(locale: "fr-FR");
        await page.GotoAsync($"/orders/{order.GetProperty("id").GetString()}/receipt");
        await page.EvaluateAsync(
            """
            () => {
              const lines = document.querySelector(".receipt tbody");
              const line = lines.firstElementChild;
              lines.replaceChildren(...Array.from({ length: 20 }, () => line.cloneNode(true)));
            }
            """
        );

        var file = Encoding.Latin1.GetString(await page.PdfAsync(new() { Format = paper }));
        await page.EmulateMediaAsync(new() { Media = Media.Print });

        Assert.Single(Sheet().Matches(file));
        await Expect(page.Locator("nav:visible, form:visible, button:visible, .on-screen:visible")).ToHaveCountAsync(0);
        await Expect(page.Locator(".receipt tfoot")).ToBeVisibleAsync();
    }

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Sheet();
}
