using System.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using ReedShop.Accounts;
using ReedShop.Tests;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>An empty shop becomes one that has promised: the walk through it, and the first order.</summary>
public sealed class OpeningFacts
{
    // Somebody who types slowly and reads each page for a while: a generous guess of ours.
    private const double SecondsPerKey = 0.5;
    private const double SecondsPerChoice = 3;
    private const double SecondsPerPage = 15;
    private const double MostSeconds = 300;
    private const double MostSecondsOfTheMachine = 30;

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task From_nothing_to_a_first_promise_in_less_than_five_minutes(bool script)
    {
        await using var shop = await OpenShop.Before(await ShopHost.Start());
        var page = await shop.NewBuyer(script);
        var maker = new Maker(page);
        var machine = Stopwatch.StartNew();

        await page.GotoAsync("/");
        await Open(maker, shop.Host.Services.GetRequiredService<FirstRunCode>().Current);
        await maker.Press("Save and go on");
        await maker.Fill("Price of one reed", "25");
        await maker.Press("Add the model and go on");
        await maker.Fill("Blanks it gives", "200");
        await maker.Press("Add the cane and go on");
        await Expect(page.GetByText("I kept none")).ToBeVisibleAsync();
        await maker.Press("Promise so and go on");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Your shop is open" })).ToBeVisibleAsync();
        await maker.Follow("Take the first order");
        await Order(maker);

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Order 1" })).ToBeVisibleAsync();
        Assert.Empty(shop.Complaints);
        var took = machine.Elapsed.TotalSeconds;
        var byHand = (maker.Keys * SecondsPerKey) + (maker.Choices * SecondsPerChoice) + (maker.Pages * SecondsPerPage);
        TestContext.Current.SendDiagnosticMessage(
            $"opening, script {script}: {maker.Keys} keys, {maker.Choices} choices, {maker.Pages} pages, "
                + $"{took:F1} s of the machine, about {byHand:F0} s by a slow hand"
        );
        Assert.True(byHand + MostSecondsOfTheMachine < MostSeconds, $"{byHand} s by hand");
        Assert.True(took < MostSecondsOfTheMachine, $"{took} s of the machine");
    }

    [Fact]
    public async Task The_walk_is_left_taken_up_again_and_gone_back()
    {
        await using var shop = await OpenShop.Before(await ShopHost.Start());
        var page = await shop.NewBuyer();
        var maker = new Maker(page);
        await page.GotoAsync("/");
        await Open(maker, shop.Host.Services.GetRequiredService<FirstRunCode>().Current);
        await page.GetByRole(AriaRole.Textbox, new() { Name = "Monday" }).FillAsync("18:30-20:00");
        await maker.Press("Save and go on");
        await Expect(page.GetByLabel("Price of one reed")).ToBeVisibleAsync();

        await page.GotoAsync("/bench/week");
        await maker.Follow("Go on opening the shop");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "What you make" })).ToBeVisibleAsync();
        await maker.Follow("Back: Hours and rack");

        await Expect(page.GetByRole(AriaRole.Textbox, new() { Name = "Monday" })).ToHaveValueAsync("18:30-20:00");
    }

    /// <summary>The browser knows where it is, and with what one pays there.</summary>
    [Fact]
    public async Task Zone_and_money_are_guessed_from_the_browser_until_they_are_chosen()
    {
        await using var shop = await OpenShop.Before(await ShopHost.Start());
        var page = await shop.NewBuyer(zone: "Pacific/Auckland");
        await page.GotoAsync("/first-run");

        await Expect(page.GetByLabel("Time zone")).ToHaveValueAsync("Pacific/Auckland");
        await Expect(page.GetByLabel("Currency")).ToHaveValueAsync("NZD");
        await page.GetByLabel("Currency").FillAsync("EUR");
        await page.GetByLabel("Time zone").FillAsync("Europe/London");

        await Expect(page.GetByLabel("Currency")).ToHaveValueAsync("EUR");
    }

    private static async Task Open(Maker maker, string code)
    {
        await maker.Fill("Code from the console", code);
        await maker.Fill("A password", "a long cane in the wind");
        await maker.Fill("Name of the shop", "Quay reeds");
        await maker.Fill("Your e-mail address", "maker@example.org");
        await maker.Press("Open the shop");
    }

    private static async Task Order(Maker maker)
    {
        await maker.Fill("How many", "4");
        await maker.Press("See the date");
        await maker.Fill("Name", "Ana Example");
        await maker.Fill("E-mail", "ana@example.org");
        await maker.Fill("Street and number", "1 Quay");
        await maker.Fill("Postal code", "1000-001");
        await maker.Fill("Town", "Harbour");
        await maker.Fill("Country", "PT");
        await maker.Press("Order");
    }

    /// <summary>Counts what a maker has to do.</summary>
    private sealed class Maker(IPage page)
    {
        public int Keys { get; private set; }

        public int Choices { get; private set; }

        public int Pages { get; private set; } = 1;

        public async Task Fill(string label, string text)
        {
            await page.GetByLabel(label).First.FillAsync(text);
            Keys += text.Length;
            Choices++;
        }

        public async Task Press(string button)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();
            Choices++;
            Pages++;
        }

        public async Task Follow(string link)
        {
            await page.GetByRole(AriaRole.Link, new() { Name = link }).ClickAsync();
            Choices++;
            Pages++;
        }
    }
}
