using System.Net;

namespace ReedShop.Tests.Accounts;

public sealed class DoorFacts(SharedHost shared) : IClassFixture<SharedHost>
{
    private readonly ShopHost shop = shared.Shop;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_cookie_opens_pages_but_never_the_API_and_the_token_the_other_way_round()
    {
        await using var opened = await ShopHost.Start();
        using var owner = await Visitor.Owner(opened);
        using var script = new Visitor(opened);
        script.Browser.DefaultRequestHeaders.Authorization = opened.Owner.DefaultRequestHeaders.Authorization;

        Assert.Equal(HttpStatusCode.OK, (await owner.Get("/account")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await owner.Get("/api/shop")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await script.Get("/api/shop")).StatusCode);
        Assert.EndsWith(
            "/sign-in?returnUrl=%2Faccount",
            (await script.Get("/account")).Headers.Location?.OriginalString,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("Bearer wrong-token-of-some-length")]
    [InlineData("Bearer")]
    [InlineData("Basic b3duZXI6")]
    public async Task Only_the_owners_token_opens_the_API(string authorization)
    {
        var answer = await ShopHost.Send(
            shop.Guest,
            HttpMethod.Get,
            "/api/shop",
            null,
            ("Authorization", authorization)
        );

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
    }

    [Fact]
    public async Task A_shop_without_a_token_keeps_the_API_shut()
    {
        await using var shut = await ShopHost.Start(null, ("ReedShop:OwnerToken", ""));

        Assert.Equal(HttpStatusCode.Unauthorized, (await shut.Owner.GetAsync("/api/shop", Cancel)).StatusCode);
    }

    [Theory]
    [InlineData("POST", "/sign-out")]
    [InlineData("POST", "/sign-in")]
    [InlineData("PUT", "/anything")]
    [InlineData("DELETE", "/account")]
    public async Task What_does_not_come_from_a_page_of_ours_is_refused(string method, string path)
    {
        using var visitor = new Visitor(shop);
        using var request = new HttpRequestMessage(new HttpMethod(method), path);

        Assert.Equal(HttpStatusCode.BadRequest, (await visitor.Browser.SendAsync(request, Cancel)).StatusCode);
    }
}
