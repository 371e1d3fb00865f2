using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ReedShop.Tests.Platform;

/// <summary>Which language and whose formats a request is answered in.</summary>
public sealed class LanguageFacts(LanguageFacts.OwnedShop owned) : IClassFixture<LanguageFacts.OwnedShop>
{
    private readonly ShopHost shop = owned.Shop;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("de", "de-DE")]
    [InlineData("de-AT", "de-DE")]
    [InlineData("fr-CA,fr;q=0.9,en;q=0.8", "fr-FR")]
    [InlineData("pt", "pt-PT")]
    [InlineData("pt-BR,pt;q=0.9", "pt-BR")]
    [InlineData("en", "en-GB")]
    [InlineData("en,en-US;q=0.9", "en-US")]
    [InlineData("en-AU", "en-GB")]
    [InlineData("ja,de;q=0.5", "de-DE")]
    [InlineData("ja", "en-GB")]
    [InlineData("*", "en-GB")]
    [InlineData("not a language;q=x", "en-GB")]
    [InlineData(null, "en-GB")]
    public async Task The_page_says_its_language_as_near_to_the_wish_as_there_is(string? wish, string language)
    {
        using var buyer = Speaker(wish);

        Assert.Contains($"<html lang=\"{language}\">", await buyer.Read("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_chosen_language_comes_before_that_of_the_browser_and_stays()
    {
        using var buyer = Speaker("fr");

        Assert.Contains("Welche Blätter", Text(await buyer.Read("/?lang=de")), StringComparison.Ordinal);
        Assert.Contains("Welche Blätter", Text(await buyer.Read("/")), StringComparison.Ordinal);
        Assert.Contains("Quelles anches", Text(await buyer.Read("/?lang=fr")), StringComparison.Ordinal);
        Assert.Contains("Quelles anches", Text(await buyer.Read("/?lang=xx")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task English_that_was_chosen_by_its_link_is_that_of_the_browsers_country()
    {
        using var buyer = Speaker("fr,en-US;q=0.5");

        Assert.Contains("<html lang=\"en-US\">", await buyer.Read("/?lang=en"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de", "en-GB")]
    [InlineData("de,en-US;q=0.5", "en-US")]
    [InlineData("en-US", "en-US")]
    public async Task The_makers_pages_stay_English(string wish, string language)
    {
        using var owner = Speaker(wish);
        await owner.SignIn(Visitor.Password);

        var page = await owner.Read("/bench/week?lang=de");

        Assert.Contains($"<html lang=\"{language}\">", page, StringComparison.Ordinal);
        var (british, american) = ("1 – 7 March 2027", "March 1 – 7, 2027");
        Assert.Contains(language == "en-US" ? american : british, Text(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_script_is_answered_the_same_whatever_language_it_asks_for()
    {
        await shop.PostJson("/api/drawer/count", ExampleDrawer);
        var wishes = new (HttpMethod Method, string Path, object? Body)[]
        {
            (HttpMethod.Get, "/api/models", null),
            (HttpMethod.Get, "/api/shop", null),
            (HttpMethod.Get, "/problems", null),
            (HttpMethod.Get, "/api/orders/unknown", null),
            (HttpMethod.Post, "/api/quotes", Draft(("quantity", 2))),
            (HttpMethod.Post, "/api/quotes", Draft(("quantity", 0))),
            (HttpMethod.Post, "/api/quotes", Draft(("strength", 6))),
            (HttpMethod.Post, "/api/quotes", Draft(("quantity", "zwei"))),
        };
        foreach (var (method, path, body) in wishes)
        {
            var plain = await Answer(method, path, body);
            Assert.Equal(plain, await Answer(method, path, body, ("Accept-Language", "de-DE")));
            Assert.Equal(plain, await Answer(method, path, body, ("Cookie", "reedshop.language=c=|uic=fr-FR")));
        }

        Assert.Contains(
            "1 to 100 reeds",
            await Answer(HttpMethod.Post, "/api/quotes", Draft(("quantity", 0))),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_form_in_another_language_is_read_as_before_and_refused_in_that_language()
    {
        await shop.PostJson("/api/drawer/count", ExampleDrawer);
        using var buyer = Speaker("de");

        var read = await Look(buyer, "3.5", "2", "0.75");
        var refused = await Look(buyer, "3.5", "zwei", "");

        Assert.Equal(HttpStatusCode.OK, read.StatusCode);
        Assert.Contains("7,00\u00A0€", Text(await read.Content.ReadAsStringAsync(Cancel)), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains(
            "Wie viele Blätter möchten Sie? Möglich ist: 1 bis 100 Blätter.",
            WithoutTags(await refused.Content.ReadAsStringAsync(Cancel)),
            StringComparison.Ordinal
        );
    }

    private static object ExampleDrawer =>
        new
        {
            model = ExampleReeds.Clarinet,
            strength = 3.5,
            count = 20,
        };

    private static JsonNode Draft((string Name, JsonNode Value) changed)
    {
        var wish = JsonSerializer.SerializeToNode(ExampleReeds.Lines((3.5, 2)))!;
        wish["lines"]![0]![changed.Name] = changed.Value;
        wish["draft"] = true;
        return wish;
    }

    private async Task<string> Answer(
        HttpMethod method,
        string path,
        object? body,
        params IEnumerable<(string Name, string Value)> headers
    ) => await (await shop.Send(method, path, body, headers)).Content.ReadAsStringAsync(Cancel);

    private static Task<HttpResponseMessage> Look(Visitor buyer, string strength, string quantity, string confidence) =>
        buyer.Post(
            "/",
            ("model", ExampleReeds.Clarinet),
            ("strength", strength),
            ("quantity", quantity),
            ("confidence", confidence),
            ("do", "look")
        );

    private Visitor Speaker(string? wish)
    {
        var visitor = new Visitor(shop);
        if (wish is not null)
        {
            visitor.Browser.DefaultRequestHeaders.TryAddWithoutValidation("Accept-Language", wish);
        }

        return visitor;
    }

    private static string Text(string page) => WebUtility.HtmlDecode(page);

    private static string WithoutTags(string page) =>
        Text(System.Text.RegularExpressions.Regex.Replace(page, "<[^>]+>", "", default, TimeSpan.FromMinutes(1)))
            .Trim();

    /// <summary>A shop with an owner that sells reeds.</summary>
    public sealed class OwnedShop : IAsyncLifetime
    {
        public ShopHost Shop { get; private set; } = null!;

        public async ValueTask InitializeAsync()
        {
            Shop = await ExampleReeds.NewShop();
            using var owner = await Visitor.Owner(Shop);
        }

        public ValueTask DisposeAsync() => Shop.DisposeAsync();
    }
}
