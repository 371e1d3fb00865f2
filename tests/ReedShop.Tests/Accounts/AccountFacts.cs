using System.Net;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Accounts;

namespace ReedShop.Tests.Accounts;

public sealed partial class AccountFacts
{
    private const string Password = "a long cane in the wind";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_first_run_opens_the_shop_and_signs_the_owner_in()
    {
        await using var shop = await ShopHost.Start();
        using var browser = shop.NewBrowser();

        var answer = await FirstRun(browser, Code(shop));

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Contains(
            "reedshop.owner=",
            answer.Headers.GetValues("Set-Cookie").Aggregate(string.Concat),
            StringComparison.Ordinal
        );
        var settings = await shop.GetJson("/api/shop");
        Assert.Equal("Harbour reeds", settings.GetProperty("name").GetString());
        Assert.Equal("09:00", settings.GetProperty("hours").GetProperty("saturday")[0].GetProperty("from").GetString());
        Assert.Equal(60, settings.GetProperty("rackBlanks").GetInt32());
    }

    [Fact]
    public async Task A_wrong_code_opens_nothing_and_five_of_them_change_it()
    {
        await using var shop = await ShopHost.Start();
        using var browser = shop.NewBrowser();
        var code = Code(shop);
        for (var guess = 0; guess < 5; guess++)
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, (await FirstRun(browser, "no")).StatusCode);
        }

        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await FirstRun(browser, code)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await shop.Owner.GetAsync("/api/shop", Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_password_that_is_too_short_opens_nothing()
    {
        await using var shop = await ShopHost.Start();
        using var browser = shop.NewBrowser();

        var answer = await FirstRun(browser, Code(shop), password: "short");

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
        using var browser = shop.NewBrowser();
        using var late = shop.NewBrowser();
        var code = Code(shop);
        var lateForm = await Token(late, "/first-run");
        await FirstRun(browser, code);

        var answer = await Post(late, "/first-run", lateForm, Form(code, Password));

        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
    }

    [Fact]
    public async Task Without_an_owner_every_page_leads_to_the_first_run()
    {
        await using var shop = await ShopHost.Start();
        using var browser = shop.NewBrowser();
        browser.DefaultRequestHeaders.Add("Accept", "text/html");

        var before = await browser.GetAsync("/", Cancel);
        var docs = await browser.GetAsync("/docs/api/", Cancel);
        await FirstRun(browser, Code(shop));
        var after = await browser.GetAsync("/sign-in", Cancel);

        Assert.Equal("/first-run", before.Headers.Location?.OriginalString);
        Assert.Equal(HttpStatusCode.OK, docs.StatusCode);
        Assert.Equal(HttpStatusCode.OK, after.StatusCode);
    }

    [Fact]
    public async Task The_owner_signs_in_with_the_password_and_goes_where_they_wanted()
    {
        await using var shop = await ShopHost.Start();
        using var browser = shop.NewBrowser();
        await FirstRun(browser, Code(shop));
        using var other = shop.NewBrowser();

        var wrong = await SignIn(other, "not the password", "/week");
        var right = await SignIn(other, Password, "/week");
        var astray = await SignIn(other, Password, "//elsewhere.example");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        Assert.Equal("/week", right.Headers.Location?.OriginalString);
        Assert.Equal("/", astray.Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task Five_wrong_passwords_lock_the_door_for_the_right_one_too()
    {
        await using var shop = await ShopHost.Start();
        using var browser = shop.NewBrowser();
        await FirstRun(browser, Code(shop));
        for (var guess = 0; guess < 5; guess++)
        {
            await SignIn(browser, "not the password", "/");
        }

        var answer = await SignIn(browser, Password, "/");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("quarter of an hour", await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_cookie_never_opens_the_API()
    {
        await using var shop = await ShopHost.Start();
        using var browser = shop.NewBrowser();
        await FirstRun(browser, Code(shop));

        Assert.Equal(HttpStatusCode.Unauthorized, (await browser.GetAsync("/api/shop", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await shop.Owner.GetAsync("/api/shop", Cancel)).StatusCode);
    }

    [Theory]
    [InlineData("Bearer wrong-token-of-some-length")]
    [InlineData("Bearer")]
    [InlineData("Basic b3duZXI6")]
    public async Task Only_the_owners_token_opens_the_API(string authorization)
    {
        await using var shop = await ShopHost.Start();

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
        await using var shop = await ShopHost.Start(null, ("ReedShop:OwnerToken", ""));

        Assert.Equal(HttpStatusCode.Unauthorized, (await shop.Owner.GetAsync("/api/shop", Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_form_from_elsewhere_is_refused()
    {
        await using var shop = await ShopHost.Start();
        using var browser = shop.NewBrowser();

        using var bare = new FormUrlEncodedContent([]);
        var signOut = await browser.PostAsync("/sign-out", bare, Cancel);
        var nowhere = await browser.PutAsync("/anything", bare, Cancel);

        Assert.Equal(HttpStatusCode.BadRequest, signOut.StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, nowhere.StatusCode);
    }

    private static string Code(ShopHost shop) => shop.Services.GetRequiredService<FirstRunCode>().Current;

    private static async Task<HttpResponseMessage> FirstRun(
        HttpClient browser,
        string code,
        string password = Password
    ) => await Post(browser, "/first-run", await Token(browser, "/first-run"), Form(code, password));

    private static async Task<HttpResponseMessage> SignIn(HttpClient browser, string password, string returnUrl) =>
        await Post(
            browser,
            "/sign-in",
            await Token(browser, "/sign-in"),
            new() { ["password"] = password, ["returnUrl"] = returnUrl }
        );

    private static Dictionary<string, string> Form(string code, string password) =>
        new()
        {
            ["code"] = code,
            ["password"] = password,
            ["name"] = "Harbour reeds",
            ["email"] = "maker@example.org",
            ["zone"] = "Europe/Lisbon",
            ["currency"] = "EUR",
        };

    private static async Task<HttpResponseMessage> Post(
        HttpClient browser,
        string path,
        string token,
        Dictionary<string, string> fields
    )
    {
        fields["__RequestVerificationToken"] = token;
        using var form = new FormUrlEncodedContent(fields);
        return await browser.PostAsync(path, form, Cancel);
    }

    private static async Task<string> Token(HttpClient browser, string path) =>
        TokenField().Match(await browser.GetStringAsync(path, Cancel)).Groups["token"].Value;

    [GeneratedRegex(
        "name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex TokenField();
}
