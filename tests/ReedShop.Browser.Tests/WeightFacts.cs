using System.Net;
using Microsoft.Playwright;
using ReedShop.Tests;

namespace ReedShop.Browser.Tests;

/// <summary>What a page costs on a slow line, counted on the wire.</summary>
[Collection(FurnishedShop.Collection)]
public sealed class WeightFacts(FurnishedShop furnished)
{
    private const int MostAtFirst = 150_000;
    private const int MostAfterwards = 20_000;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/bench/week")]
    [InlineData("/bench/today")]
    [InlineData("/")]
    public async Task A_page_is_light_and_lighter_when_seen_before(string address)
    {
        var page = await furnished.Shop.NewOwner();
        var wire = await page.Context.NewCDPSessionAsync(page);
        await wire.SendAsync("Network.clearBrowserCache");

        var first = await Transferred(page, address);
        var afterwards = await Transferred(page, address);

        TestContext.Current.TestOutputHelper?.WriteLine($"{address}: {first} bytes, then {afterwards}");
        Assert.InRange(first, 1000, MostAtFirst);
        Assert.InRange(afterwards, 1, Math.Min(first - 1, MostAfterwards));
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task A_style_is_kept_for_good_under_its_own_mark_only()
    {
        var page = await furnished.Shop.NewBuyer();
        await page.GotoAsync("/");
        var marked = await page.Locator("link[rel=stylesheet]").GetAttributeAsync("href");

        Assert.Contains("immutable", await CacheControl(marked!), StringComparison.Ordinal);
        Assert.Equal("public, no-cache", await CacheControl("/reedshop.css"));
        Assert.Equal("public, no-cache", await CacheControl("/reedshop.css?is=another"));
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task What_another_site_asks_for_is_not_packed()
    {
        Assert.Equal("gzip", await PackedFor("same-origin"));
        Assert.Equal("gzip", await PackedFor("none"));
        Assert.Null(await PackedFor("cross-site"));
        Assert.Null(await PackedFor("same-site"));
    }

    private static async Task<int> Transferred(IPage page, string address)
    {
        var wire = await page.Context.NewCDPSessionAsync(page);
        var bytes = 0;
        var images = new HashSet<string>();
        wire.Event("Network.responseReceived").OnEvent += (_, told) =>
        {
            if (told!.Value.GetProperty("type").GetString() == "Image")
            {
                images.Add(told.Value.GetProperty("requestId").GetString()!);
            }
        };
        wire.Event("Network.loadingFinished").OnEvent += (_, told) =>
        {
            var request = told!.Value.GetProperty("requestId").GetString()!;
            bytes += images.Contains(request) ? 0 : told.Value.GetProperty("encodedDataLength").GetInt32();
        };
        await wire.SendAsync("Network.enable");
        await page.GotoAsync(address, new() { WaitUntil = WaitUntilState.NetworkIdle });
        await wire.DetachAsync();
        return bytes;
    }

    private async Task<string?> CacheControl(string address)
    {
        var answer = await furnished.Shop.Host.Guest.GetAsync(address, Cancel);
        Assert.NotNull(answer.Headers.ETag);
        return answer.Headers.CacheControl?.ToString();
    }

    private async Task<string?> PackedFor(string site)
    {
        var answer = await ShopHost.Send(
            furnished.Shop.Host.Guest,
            HttpMethod.Get,
            "/",
            null,
            ("Accept-Encoding", "gzip"),
            ("Sec-Fetch-Site", site)
        );
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return answer.Content.Headers.ContentEncoding.SingleOrDefault();
    }
}
