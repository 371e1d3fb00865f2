using ReedShop.Platform;

namespace ReedShop.Tests.Platform;

public sealed class LogFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/api/orders/{0}")]
    [InlineData("/orders/{0}/anything")]
    [InlineData("/calendar/{0}.ics")]
    public async Task The_log_tells_of_a_request_but_not_of_its_link(string address)
    {
        await using var shop = await ShopHost.Start(null, ("Serilog:MinimumLevel:Default", "Information"));
        var link = Links.New();
        var path = string.Format(System.Globalization.CultureInfo.InvariantCulture, address, link);

        await shop.Guest.GetAsync(path, Cancel);
        await shop.Restart();

        var file = Assert.Single(Directory.GetFiles(Path.Combine(shop.Folder, "logs"), "*.json"));
        await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var log = await new StreamReader(stream).ReadToEndAsync(Cancel);
        Assert.Contains(path.Replace(link, "(link)", StringComparison.Ordinal), log, StringComparison.Ordinal);
        Assert.DoesNotContain(link, log, StringComparison.OrdinalIgnoreCase);
    }
}
