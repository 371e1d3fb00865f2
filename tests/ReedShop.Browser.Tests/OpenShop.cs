using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using ReedShop.Accounts;
using ReedShop.Demo;
using ReedShop.Tests;

namespace ReedShop.Browser.Tests;

/// <summary>
/// A shop with an owner, looked at in a real Chromium. Everything the browser asks for and every complaint of a page is
/// written down.
/// </summary>
public sealed class OpenShop : IAsyncDisposable
{
    private static readonly string Chromium =
        Environment.GetEnvironmentVariable("REEDSHOP_CHROMIUM") ?? "/usr/bin/chromium";

    private readonly List<string> askedFor = [];
    private readonly List<string> complaints = [];

    private OpenShop(ShopHost host, IPlaywright playwright, IBrowser browser) =>
        (Host, Playwright, Browser) = (host, playwright, browser);

    public ShopHost Host { get; }

    public string Password { get; private set; } = "a long cane in the wind";

    /// <summary>Addresses asked for at another host than the shop's.</summary>
    public IReadOnlyList<string> AskedElsewhere =>
        [.. askedFor.Where(url => new Uri(url).Authority != Host.Address.Authority)];

    /// <summary>Errors and warnings on the console: of scripts, and of what the security policy turned away.</summary>
    public IReadOnlyList<string> Complaints => complaints;

    private IPlaywright Playwright { get; }

    private IBrowser Browser { get; }

    public static async Task<OpenShop> Start()
    {
        var shop = await Before(await ExampleReeds.ShopWithHistory());
        await shop.GiveItAnOwner();
        return shop;
    }

    /// <summary>The demo: three models, thirty open orders, batches half-way.</summary>
    public static async Task<OpenShop> Furnished()
    {
        var shop = await Before(await ShopHost.Start(null, ("ReedShop:Demo", "true")));
        shop.Password = await shop.Host.Within(services => services.GetRequiredService<DemoShop>().NewPassword());
        return shop;
    }

    /// <summary>A browser before a shop as it is.</summary>
    public static async Task<OpenShop> Before(ShopHost host)
    {
        var playwright = await Microsoft.Playwright.Playwright.CreateAsync();
        var browser = await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = Chromium,
                Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
            }
        );
        return new OpenShop(host, playwright, browser);
    }

    public Task<IPage> NewBuyer(
        bool script = true,
        int width = 1360,
        string locale = "en-GB",
        ColorScheme? scheme = null,
        string? zone = null
    ) => NewPage(script, width, scheme, locale, zone);

    /// <summary>A browser in which the owner has signed in.</summary>
    public async Task<IPage> NewOwner(bool script = true, int width = 1360, ColorScheme? scheme = null)
    {
        var page = await NewPage(script, width, scheme);
        await page.GotoAsync("/sign-in");
        await page.GetByLabel("Password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        return page;
    }

    /// <summary>An order as the buyer's page would bring it.</summary>
    public async Task Order(double strength = 3.5, int quantity = 4)
    {
        var quote = await Host.PostJson("/api/quotes", ExampleReeds.Lines((strength, quantity)));
        await Host.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
    }

    public async ValueTask DisposeAsync()
    {
        await Browser.DisposeAsync();
        Playwright.Dispose();
        await Host.DisposeAsync();
    }

    private async Task GiveItAnOwner()
    {
        var page = await NewPage(script: false, width: 1360, scheme: null);
        await page.GotoAsync("/");
        await page.GetByLabel("Code from the console")
            .FillAsync(Host.Services.GetRequiredService<FirstRunCode>().Current);
        await page.GetByLabel("A password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Open the shop" }).ClickAsync();
        await page.Context.CloseAsync();
    }

    private async Task<IPage> NewPage(
        bool script,
        int width,
        ColorScheme? scheme = null,
        string locale = "en-GB",
        string? zone = null
    )
    {
        var context = await Browser.NewContextAsync(
            new()
            {
                BaseURL = Host.Address.ToString(),
                JavaScriptEnabled = script,
                Locale = locale,
                ColorScheme = scheme,
                TimezoneId = zone,
                ViewportSize = new() { Width = width, Height = 900 },
            }
        );
        var page = await context.NewPageAsync();
        page.Request += (_, request) => askedFor.Add(request.Url);
        page.PageError += (_, error) => complaints.Add(error);
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
            {
                complaints.Add(message.Text);
            }
        };
        return page;
    }
}
