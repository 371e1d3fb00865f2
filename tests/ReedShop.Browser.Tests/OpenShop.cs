using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using ReedShop.Accounts;
using ReedShop.Tests;

namespace ReedShop.Browser.Tests;

/// <summary>
/// A shop with an owner, looked at in a real Chromium. Everything the browser asks for and every complaint of a page is
/// written down.
/// </summary>
public sealed class OpenShop : IAsyncDisposable
{
    private const string Password = "a long cane in the wind";

    private static readonly string Chromium =
        Environment.GetEnvironmentVariable("REEDSHOP_CHROMIUM") ?? "/usr/bin/chromium";

    private readonly List<string> askedFor = [];
    private readonly List<string> complaints = [];

    private OpenShop(ShopHost host, IPlaywright playwright, IBrowser browser) =>
        (Host, Playwright, Browser) = (host, playwright, browser);

    public ShopHost Host { get; }

    /// <summary>Addresses asked for at another host than the shop's.</summary>
    public IReadOnlyList<string> AskedElsewhere =>
        [.. askedFor.Where(url => new Uri(url).Authority != Host.Address.Authority)];

    /// <summary>Errors of scripts, and files or styles that the security policy turned away.</summary>
    public IReadOnlyList<string> Complaints => complaints;

    private IPlaywright Playwright { get; }

    private IBrowser Browser { get; }

    public static async Task<OpenShop> Start()
    {
        var host = await ExampleReeds.ShopWithHistory();
        var playwright = await Microsoft.Playwright.Playwright.CreateAsync();
        var browser = await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = Chromium,
                Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
            }
        );
        var shop = new OpenShop(host, playwright, browser);
        await shop.GiveItAnOwner();
        return shop;
    }

    public Task<IPage> NewBuyer(bool script = true, int width = 1360, string locale = "en-GB") =>
        NewPage(script, width, locale);

    /// <summary>A browser in which the owner has signed in.</summary>
    public async Task<IPage> NewOwner(bool script = true, int width = 1360)
    {
        var page = await NewPage(script, width);
        await page.GotoAsync("/sign-in");
        await page.GetByLabel("Password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        return page;
    }

    public async ValueTask DisposeAsync()
    {
        await Browser.DisposeAsync();
        Playwright.Dispose();
        await Host.DisposeAsync();
    }

    private async Task GiveItAnOwner()
    {
        var page = await NewPage(script: false, width: 1360);
        await page.GotoAsync("/");
        await page.GetByLabel("Code from the console")
            .FillAsync(Host.Services.GetRequiredService<FirstRunCode>().Current);
        await page.GetByLabel("A password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Open the shop" }).ClickAsync();
        await page.Context.CloseAsync();
    }

    private async Task<IPage> NewPage(bool script, int width, string locale = "en-GB")
    {
        var context = await Browser.NewContextAsync(
            new()
            {
                BaseURL = Host.Address.ToString(),
                JavaScriptEnabled = script,
                Locale = locale,
                ViewportSize = new() { Width = width, Height = 900 },
            }
        );
        var page = await context.NewPageAsync();
        page.Request += (_, request) => askedFor.Add(request.Url);
        page.PageError += (_, error) => complaints.Add(error);
        page.Console += (_, message) =>
        {
            if (message.Type == "error")
            {
                complaints.Add(message.Text);
            }
        };
        return page;
    }
}
