using Microsoft.Playwright;
using ReedShop.Tests;
using ReedShop.Tests.Platform;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

public sealed class OrderFormFacts
{
    [Fact]
    public async Task Price_and_ship_date_appear_while_the_buyer_types()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer();
        await page.GotoAsync("/");

        await page.GetByLabel("Strength", new() { Exact = true }).SelectOptionAsync("3.5");
        await page.GetByLabel("How many").FillAsync("4");

        var answer = page.GetByRole(AriaRole.Region, new() { Name = "Price and ship date" });
        await Expect(answer).ToContainTextAsync("Ships by");
        await Expect(answer).ToContainTextAsync("€14.00");
        await Expect(answer).ToContainTextAsync("blanks are started");
        Assert.Empty(shop.AskedElsewhere);
        Assert.Empty(shop.Complaints);
    }

    [Fact]
    public async Task The_live_date_is_the_one_the_button_shows()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer();
        await page.GotoAsync("/");
        await page.GetByLabel("How many").FillAsync("3");
        await Expect(page.Locator(".offer .date time")).ToBeVisibleAsync();
        var live = await page.Locator(".offer .date").InnerTextAsync();

        await page.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();

        await Expect(page.GetByLabel("Name")).ToBeVisibleAsync();
        Assert.Equal(live, await page.Locator(".offer .date").InnerTextAsync());
    }

    [Theory]
    [InlineData("de-DE", "Versand bis", "14,00\u00A0€")]
    [InlineData("pt-PT", "Envio até", "14,00\u00A0€")]
    [InlineData("fr-FR", "Expédition au plus tard", "14,00\u00A0€")]
    public async Task The_live_date_speaks_the_language_of_the_browser(string locale, string ships, string price)
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer(width: 360, locale: locale);
        await page.GotoAsync("/");

        await page.Locator("#quantity-0").FillAsync("4");

        await Expect(page.Locator("#offer .date")).ToContainTextAsync(ships);
        Assert.Equal(price, await page.Locator("#offer .total").TextContentAsync());
        Assert.Equal(locale, await page.Locator("html").GetAttributeAsync("lang"));
        Assert.Equal(0, await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"));
        Assert.Empty(shop.Complaints);
    }

    [Fact]
    public async Task While_the_shop_is_busy_the_live_date_points_to_the_button()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer();
        await page.GotoAsync("/");
        await using var gate = await FullGate.Of(shop.Host);

        await page.GetByLabel("How many").FillAsync("4");

        await Expect(page.Locator("#offer")).ToContainTextAsync("The date could not be asked for just now.");
        await Expect(page.Locator("#offer")).ToContainTextAsync("Accepted: the button “See the date”.");
    }

    [Fact]
    public async Task A_sampler_is_one_choice_whose_price_and_date_are_live()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer();
        await page.GotoAsync("/");

        await page.GetByLabel("Strength", new() { Exact = true }).SelectOptionAsync("sampler 3, 3½, 4");
        await page.GetByLabel("How many").FillAsync("2");

        await Expect(page.Locator("#offer .total")).ToHaveTextAsync("€21.00");
        await Expect(page.Locator("#offer .because")).ToContainTextAsync("2 of 4 (B-flat clarinet)");
        Assert.Empty(shop.Complaints);
    }

    [Fact]
    public async Task Without_script_a_sampler_is_three_lines_after_one_press()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer(script: false, width: 360);
        await page.GotoAsync("/");
        await page.GetByLabel("Strength", new() { Exact = true }).SelectOptionAsync("sampler 3, 3½, 4");
        await page.GetByLabel("How many").FillAsync("2");

        await page.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();

        await Expect(page.Locator("#offer .total")).ToHaveTextAsync("€21.00");
        await Expect(page.GetByLabel("How many")).ToHaveCountAsync(3);
        await Expect(page.GetByLabel("Strength", new() { Exact = true }).Nth(2)).ToHaveValueAsync("4");
        await Expect(page.GetByLabel("How many").Nth(2)).ToHaveValueAsync("2");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task The_way_back_from_an_order_sends_no_form_again(bool script)
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer(script);
        var posts = 0;
        await page.GotoAsync("/");
        await page.GetByLabel("How many").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();
        await FillAddress(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Order", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Order 1" })).ToBeVisibleAsync();
        page.Request += (_, request) => posts += request.IsNavigationRequest && request.Method == "POST" ? 1 : 0;

        await page.GoBackAsync();

        await Expect(page.GetByLabel("How many")).ToHaveValueAsync("2");
        await Expect(page.Locator("#offer .date time")).ToBeVisibleAsync();
        Assert.Equal(0, posts);
    }

    [Fact]
    public async Task What_cannot_be_used_is_said_beside_its_field_when_it_is_left_and_taken_back_when_it_is_right()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer(locale: "de-DE");
        await page.GotoAsync("/");
        await page.Locator("#quantity-0").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Termin ansehen" }).ClickAsync();
        var email = page.Locator("#email");

        await email.PressSequentiallyAsync("ana");
        await Expect(page.Locator("#email-note")).ToHaveCountAsync(0);
        await page.Locator("#street").FocusAsync();

        var note = page.Locator("#email-note");
        await Expect(note).ToContainTextAsync("An diese E-Mail-Adresse kann nicht geschrieben werden.");
        await Expect(email).ToHaveAttributeAsync("aria-invalid", "true");
        await Expect(email).ToHaveAttributeAsync("aria-describedby", "email-note");
        Assert.Null(await note.GetAttributeAsync("role"));
        await Expect(page.Locator("#name-note")).ToHaveCountAsync(0);

        await email.FillAsync("ana@example.org");
        await Expect(note).ToHaveCountAsync(0);
        Assert.Null(await email.GetAttributeAsync("aria-invalid"));
        await page.Locator("#country").FillAsync("PX");
        await page.Locator("#postalCode").FocusAsync();
        await Expect(page.Locator("#country-note")).ToContainTextAsync("PX");
        await page.Locator("#quantity-0").FillAsync("101");
        await page.Locator("#name").FocusAsync();
        await Expect(page.Locator("#postalCode-note")).ToBeVisibleAsync();
        await Expect(page.Locator("#quantity-0-note")).ToContainTextAsync("1 bis 100 Blätter");
        Assert.DoesNotContain(shop.Complaints, complaint => !complaint.Contains("422", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Without_script_a_buyer_orders_and_cancels_with_one_confirmation()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer(script: false);
        await page.GotoAsync("/");
        await page.GetByLabel("How many").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Another reed" }).ClickAsync();
        await page.GetByLabel("Strength", new() { Exact = true }).Nth(1).SelectOptionAsync("4");
        await page.GetByLabel("How many").Nth(1).FillAsync("1");
        await page.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();
        var promised = await page.Locator(".offer .date time").InnerTextAsync();

        await FillAddress(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Order", Exact = true }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Order 1" })).ToBeVisibleAsync();
        await Expect(page.Locator(".offer .date time")).ToHaveTextAsync(promised);
        await page.GetByText("Cancel this order").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Yes, cancel order 1" }).ClickAsync();
        await Expect(page.GetByText("Nothing will be sent.", new() { Exact = true })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Without_script_a_buyer_orders_to_a_country_with_a_voucher()
    {
        await using var shop = await OpenShop.Start();
        await Zones.Keep(shop.Host, Zones.Home, Zones.World);
        await shop.Host.PostJson("/api/vouchers", new { code = "QUAY", share = 0.15 });
        var page = await shop.NewBuyer(script: false, width: 360);
        await page.GotoAsync("/");
        await page.GetByLabel("How many").FillAsync("2");
        await page.GetByLabel("Send to").SelectOptionAsync("Portugal");
        await page.GetByText("I have a voucher").ClickAsync();
        await page.GetByLabel("Code of the voucher").FillAsync("quai");
        await page.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();
        await Expect(page.Locator("#voucher-note")).ToContainTextAsync("There is no such voucher.");
        await Expect(page.GetByLabel("Send to")).ToHaveValueAsync("PT");

        await page.GetByLabel("Code of the voucher").FillAsync("quay");
        await page.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();

        // Of 7.00 fifteen in 100 are 1.05; 44 g cost 3.00.
        await Expect(page.Locator("#offer .parts")).ToContainTextAsync("-€1.05");
        await Expect(page.Locator("#offer .parts")).ToContainTextAsync("Shipping: Portugal");
        await Expect(page.Locator("#offer .total")).ToHaveTextAsync("€8.95");
        Assert.Equal(0, await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"));
        await FillAddress(page, country: null);
        await page.GetByRole(AriaRole.Button, new() { Name = "Order", Exact = true }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Order 1" })).ToBeVisibleAsync();
        await Expect(page.Locator(".parts")).ToContainTextAsync("Voucher QUAY");
        await Expect(page.GetByText("€8.95, not paid yet")).ToBeVisibleAsync();
        await Expect(page.GetByText("1000-001 Harbour, Portugal")).ToBeVisibleAsync();
        Assert.Empty(shop.AskedElsewhere);
    }

    [Fact]
    public async Task The_live_price_follows_the_country_and_the_voucher_once_it_is_whole()
    {
        await using var shop = await OpenShop.Start();
        await Zones.Keep(shop.Host, Zones.Home, Zones.World);
        await shop.Host.PostJson("/api/vouchers", new { code = "QUAY", share = 0.15 });
        var page = await shop.NewBuyer();
        await page.GotoAsync("/");
        await page.GetByLabel("How many").FillAsync("2");
        await Expect(page.Locator("#offer")).ToContainTextAsync("Say which country it goes to.");

        await page.GetByLabel("Send to").SelectOptionAsync("Japan");
        await Expect(page.Locator("#offer .total")).ToHaveTextAsync("€19.00");
        await page.GetByText("I have a voucher").ClickAsync();
        await page.GetByLabel("Code of the voucher").PressSequentiallyAsync("quay");
        await page.Keyboard.PressAsync("Tab");

        await Expect(page.Locator("#offer .total")).ToHaveTextAsync("€17.95");
        Assert.DoesNotContain(shop.Complaints, complaint => !complaint.Contains("422", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_buyer_whom_a_busy_shop_sends_away_loses_nothing(bool goesBack)
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer(script: false, width: 360);
        await page.GotoAsync("/");
        await page.GetByLabel("How many").FillAsync("7");
        await using (await FullGate.Of(shop.Host))
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();
            await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Try again in a moment.");
            Assert.Equal(0, await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"));
        }

        if (goesBack)
        {
            await page.GoBackAsync();
            await Expect(page.GetByLabel("How many")).ToHaveValueAsync("7");
            return;
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Try again" }).ClickAsync();

        await Expect(page.Locator(".offer .date time")).ToBeVisibleAsync();
        await Expect(page.GetByLabel("How many")).ToHaveValueAsync("7");
    }

    [Fact]
    public async Task A_refusal_stands_beside_its_field_and_nothing_typed_is_lost()
    {
        await using var shop = await OpenShop.Start();
        var page = await shop.NewBuyer(script: false);
        await page.GotoAsync("/");
        await page.GetByLabel("How many").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "See the date" }).ClickAsync();
        await FillAddress(page, name: "  ");

        await page.GetByRole(AriaRole.Button, new() { Name = "Order", Exact = true }).ClickAsync();

        await Expect(page.Locator("#name-note")).ToContainTextAsync("1 to 200 characters");
        await Expect(page.GetByLabel("E-mail")).ToHaveValueAsync("ana@example.org");
        await Expect(page.GetByLabel("Town")).ToHaveValueAsync("Harbour");
        await Expect(page.GetByLabel("How many")).ToHaveValueAsync("2");
        await Expect(page.Locator(".offer .date time")).ToBeVisibleAsync();
    }

    private static async Task FillAddress(IPage page, string name = "Ana Example", string? country = "PT")
    {
        await page.GetByLabel("Name").FillAsync(name);
        await page.GetByLabel("E-mail").FillAsync("ana@example.org");
        await page.GetByLabel("Street and number").FillAsync("1 Quay");
        await page.GetByLabel("Postal code").FillAsync("1000-001");
        await page.GetByLabel("Town").FillAsync("Harbour");
        if (country is not null)
        {
            await page.GetByLabel("Country").FillAsync(country);
        }
    }
}
