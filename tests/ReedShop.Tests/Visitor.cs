using System.Net;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Accounts;

namespace ReedShop.Tests;

/// <summary>Somebody with a browser: keeps cookies, follows no redirect by itself, sends forms as their page does.</summary>
public sealed partial class Visitor : IDisposable
{
    public const string Password = "a long cane in the wind";

    private readonly CookieContainer cookies = new();

    public Visitor(ShopHost shop) =>
        Browser = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = cookies })
        {
            BaseAddress = shop.Address,
        };

    public HttpClient Browser { get; }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>The code that the console shows.</summary>
    public static string Code(ShopHost shop) => shop.Services.GetRequiredService<FirstRunCode>().Current;

    /// <summary>The owner of a shop that has just been opened, signed in.</summary>
    public static async Task<Visitor> Owner(ShopHost shop)
    {
        var owner = new Visitor(shop);
        var opened = await owner.OpenShop(Code(shop));
        Assert.Equal(HttpStatusCode.Redirect, opened.StatusCode);
        return owner;
    }

    /// <summary>All cookies, as a request carries them.</summary>
    public string Cookie() => cookies.GetCookieHeader(Browser.BaseAddress!);

    public Task<HttpResponseMessage> Get(string path) => Browser.GetAsync(path, Cancel);

    public async Task<string> Read(string path) => await (await Get(path)).Content.ReadAsStringAsync(Cancel);

    /// <summary>Sends a form found on a page of the same address.</summary>
    public Task<HttpResponseMessage> Post(string path, params IEnumerable<(string Name, string Value)> fields) =>
        PostFrom(path, path, fields);

    /// <summary>Sends a form found on another page.</summary>
    public async Task<HttpResponseMessage> PostFrom(
        string page,
        string path,
        params IEnumerable<(string Name, string Value)> fields
    ) => await PostWith(await FormToken(page), path, fields);

    public Task<HttpResponseMessage> PostWith(
        string formToken,
        string path,
        params IEnumerable<(string Name, string Value)> fields
    )
    {
        var form = fields
            .Append(("__RequestVerificationToken", formToken))
            .Select(field => KeyValuePair.Create(field.Item1, field.Item2));
        return Browser.PostAsync(path, new FormUrlEncodedContent(form), Cancel);
    }

    /// <summary>The page an answer sends on to, or the answer itself.</summary>
    public async Task<string> Follow(HttpResponseMessage answer) =>
        answer.StatusCode == HttpStatusCode.SeeOther
            ? await Read(answer.Headers.Location!.ToString())
            : await answer.Content.ReadAsStringAsync(Cancel);

    public async Task<string> FormToken(string page) => FormTokenField().Match(await Read(page)).Groups["token"].Value;

    public Task<HttpResponseMessage> OpenShop(string code, string password = Password) =>
        Post("/first-run", FirstRunFields(code, password));

    public static (string Name, string Value)[] FirstRunFields(string code, string password = Password) =>
        [
            ("code", code),
            ("password", password),
            ("name", "Harbour reeds"),
            ("email", "maker@example.org"),
            ("zone", "Europe/Lisbon"),
            ("currency", "EUR"),
        ];

    public Task<HttpResponseMessage> SignIn(string password, string returnUrl = "/") =>
        Post("/sign-in", ("password", password), ("returnUrl", returnUrl));

    public void Dispose() => Browser.Dispose();

    [GeneratedRegex(
        "name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex FormTokenField();
}
