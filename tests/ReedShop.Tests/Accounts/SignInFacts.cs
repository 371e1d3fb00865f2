using System.Net;

namespace ReedShop.Tests.Accounts;

public sealed class SignInFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_owner_signs_in_with_the_password_and_goes_where_they_wanted()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        using var visitor = new Visitor(shop);

        var wrong = await visitor.SignIn("not the password", "/week");
        var right = await visitor.SignIn(Visitor.Password, "/week");
        var astray = await visitor.SignIn(Visitor.Password, "//elsewhere.example");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        Assert.Equal("/week", right.Headers.Location?.OriginalString);
        Assert.Equal("/bench/week", astray.Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task Five_wrong_passwords_lock_the_door_for_the_right_one_too()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        using var visitor = new Visitor(shop);
        for (var guess = 0; guess < 5; guess++)
        {
            await visitor.SignIn("not the password");
        }

        var answer = await visitor.SignIn(Visitor.Password);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("quarter of an hour", await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_signs_out_is_out()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        await owner.PostFrom("/account", "/sign-out");

        Assert.Equal(HttpStatusCode.Redirect, (await owner.Get("/account")).StatusCode);
    }

    [Fact]
    public async Task A_restart_signs_nobody_out()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        var cookie = owner.Cookie();

        await shop.Restart();

        var answer = await ShopHost.Send(shop.Guest, HttpMethod.Get, "/account", null, ("Cookie", cookie));
        Assert.Equal("/account", answer.RequestMessage!.RequestUri!.AbsolutePath);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Fact]
    public async Task A_new_password_takes_the_present_one()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        using var visitor = new Visitor(shop);

        var wrong = await owner.Post("/account", ("current", "a guess of mine"), ("password", "another long one"));
        var right = await owner.Post("/account", ("current", Visitor.Password), ("password", "another long one"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        Assert.Equal(HttpStatusCode.OK, right.StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await visitor.SignIn(Visitor.Password)).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await visitor.SignIn("another long one")).StatusCode);
    }
}
