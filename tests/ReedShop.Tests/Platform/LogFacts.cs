using ReedShop.Platform;

namespace ReedShop.Tests.Platform;

public sealed class LogFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/api/orders/{0}")]
    [InlineData("/orders/{0}/anything")]
    [InlineData("/calendar/{0}.ics")]
    [InlineData("/letters/{0}/day-list")]
    public async Task The_log_tells_of_a_request_but_not_of_its_link(string address)
    {
        await using var shop = await ShopHost.Start(null, ("Serilog:MinimumLevel:Default", "Information"));
        var link = Links.New();
        var path = string.Format(System.Globalization.CultureInfo.InvariantCulture, address, link);

        await shop.Guest.GetAsync(path, Cancel);

        var log = await Log(shop);
        Assert.Contains(path.Replace(link, "(link)", StringComparison.Ordinal), log, StringComparison.Ordinal);
        Assert.DoesNotContain(link, log, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task The_log_tells_of_a_search_but_not_of_whom_it_was_for()
    {
        await using var shop = await ShopHost.Start(null, ("Serilog:MinimumLevel:Default", "Information"));
        using var owner = await Visitor.Owner(shop);

        await owner.Get("/bench/search?q=Amarante");
        await shop.GetJson("/api/search?q=Amarante");

        var log = await Log(shop);
        Assert.Contains("/bench/search", log, StringComparison.Ordinal);
        Assert.Contains("/api/search", log, StringComparison.Ordinal);
        Assert.DoesNotContain("Amarante", log, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Keys_are_never_logged_and_test_keys_warn_at_every_start()
    {
        await using var paying = await Payments.PayingShop.Open(more: ("Serilog:MinimumLevel:Default", "Debug"));
        paying.Stripe.Fail("/v1/checkout", Payments.StripeFault.Broken);
        await paying.Order();
        await paying.Tick();

        var log = await Log(paying.Shop);
        Assert.Contains("Stripe answered 500", log, StringComparison.Ordinal);
        Assert.Contains("TEST KEYS", log, StringComparison.Ordinal);
        Assert.DoesNotContain(Payments.StripeStandIn.SecretKey, log, StringComparison.Ordinal);
        Assert.DoesNotContain(Payments.StripeStandIn.WebhookSecret, log, StringComparison.Ordinal);
    }

    private static async Task<string> Log(ShopHost shop)
    {
        await shop.Restart();
        var file = Assert.Single(Directory.GetFiles(Path.Combine(shop.Folder, "logs"), "*.json"));
        await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        return await new StreamReader(stream).ReadToEndAsync(Cancel);
    }
}
