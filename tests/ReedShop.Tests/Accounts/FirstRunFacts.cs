using System.Net;

namespace ReedShop.Tests.Accounts;

public sealed class FirstRunFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_first_run_opens_the_shop_and_signs_the_owner_in()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var settings = await shop.GetJson("/api/shop");

        Assert.Equal(HttpStatusCode.OK, (await owner.Get("/account")).StatusCode);
        Assert.Equal("Harbour reeds", settings.GetProperty("name").GetString());
        Assert.Equal("09:00", settings.GetProperty("hours").GetProperty("saturday")[0].GetProperty("from").GetString());
        Assert.Equal(60, settings.GetProperty("rackBlanks").GetInt32());
    }

    [Fact]
    public async Task A_wrong_code_opens_nothing_and_five_of_them_change_it()
    {
        await using var shop = await ShopHost.Start();
        using var stranger = new Visitor(shop);
        var code = Visitor.Code(shop);
        for (var guess = 0; guess < 5; guess++)
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, (await stranger.OpenShop("no")).StatusCode);
        }

        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await stranger.OpenShop(code)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await shop.Owner.GetAsync("/api/shop", Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_password_that_is_too_short_opens_nothing()
    {
        await using var shop = await ShopHost.Start();
        using var owner = new Visitor(shop);

        var answer = await owner.OpenShop(Visitor.Code(shop), "short");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(
            "10 characters or more",
            await answer.Content.ReadAsStringAsync(Cancel),
            StringComparison.Ordinal
        );
        Assert.Equal(HttpStatusCode.NotFound, (await shop.Owner.GetAsync("/api/shop", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Nobody_opens_the_shop_twice()
    {
        await using var shop = await ShopHost.Start();
        using var late = new Visitor(shop);
        var formToken = await late.FormToken("/first-run");
        var code = Visitor.Code(shop);
        using var owner = await Visitor.Owner(shop);

        var answer = await late.PostWith(formToken, "/first-run", Visitor.FirstRunFields(code));

        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
    }

    [Fact]
    public async Task Without_an_owner_every_page_of_the_shop_leads_to_the_first_run()
    {
        await using var shop = await ShopHost.Start();
        using var visitor = new Visitor(shop);
        visitor.Browser.DefaultRequestHeaders.Add("Accept", "text/html");

        var page = await visitor.Get("/");
        var docs = await visitor.Get("/docs/api/");
        using var owner = await Visitor.Owner(shop);
        var later = await visitor.Get("/sign-in");

        Assert.Equal("/first-run", page.Headers.Location?.OriginalString);
        Assert.Equal(HttpStatusCode.OK, docs.StatusCode);
        Assert.Equal(HttpStatusCode.OK, later.StatusCode);
    }

    [Fact]
    public async Task A_forgotten_password_is_chosen_anew_and_the_shop_stays()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await shop.Restart(("ReedShop:ResetOwner", "true"));
        using var later = new Visitor(shop);

        var page = await later.Read("/first-run");
        var answer = await later.OpenShop(Visitor.Code(shop), "another long one");

        Assert.DoesNotContain("Name of the shop", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal("Harbour reeds", (await shop.GetJson("/api/shop")).GetProperty("name").GetString());
    }
}
