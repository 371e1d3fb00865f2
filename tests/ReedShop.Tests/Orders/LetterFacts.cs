using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ReedShop.Catalogue;
using ReedShop.Messages;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Tests.Platform;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Orders;

/// <summary>Letters to buyers, in the language the order was placed in; those to the maker stay English.</summary>
public sealed class LetterFacts
{
    private static readonly string[] ToBuyer =
    [
        "order-confirmed",
        "strength-asked",
        "date-moved",
        "part-shipped",
        "order-cancelled",
    ];

    /// <summary>Expected texts are written by hand; the days follow from the parcels of the example shop.</summary>
    [Theory]
    [InlineData("de", "vielen Dank für Ihre Bestellung 1:", "4 in Stärke 3½ (B-Klarinette)", "14,00\u00A0€")]
    [InlineData("fr", "merci de votre commande 1 :", "4 en force 3½ (Clarinette en si bémol)", "14,00\u00A0€")]
    [InlineData("pt", "obrigado pela sua encomenda 1:", "4 de força 3½ (Clarinete em si bemol)", "14,00\u00A0€")]
    [InlineData("en", "thank you for your order 1:", "4 of 3½ (B-flat clarinet)", "€14.00")]
    public async Task Every_letter_is_in_the_language_of_the_order(
        string language,
        string thanks,
        string line,
        string price
    )
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Watch.Promised.Stock(shop, 3.5, 2);
        var id = await Ordered(shop, language);

        await Ask(shop, id);
        await ShopHost.Read(await Watch.Promised.Move(shop, id, new DateOnly(2027, 6, 3)));
        await shop.PostJson($"/api/orders/{id}/ship", new { part = true, tracking = "AB 123" });
        await shop.PostJson($"/api/orders/{id}/reply", new { reply = "cancel" });

        var letters = new List<OutboxMessage>();
        foreach (var kind in ToBuyer)
        {
            letters.Add(Assert.Single(await Letters(shop, kind)));
        }

        Assert.Contains(thanks, letters[0].Text, StringComparison.Ordinal);
        Assert.Contains(line, letters[0].Text, StringComparison.Ordinal);
        Assert.Contains(price, letters[0].Text, StringComparison.Ordinal);
        Assert.All(letters, letter => Assert.Equal(language == "en", HasEnglish(letter)));
        var order = (await shop.GetJson($"/api/orders/{id}")).GetProperty("language").GetString();
        Assert.All(letters, letter => Assert.Equal(order, letter.Language));
        Assert.Equal("en-GB", Assert.Single(await Letters(shop, "moved-answered")).Language);
        Assert.Contains(
            "the buyer answers",
            Assert.Single(await Letters(shop, "moved-answered")).Title,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("de-DE", "ging ab am Montag, 1. März 2027:")]
    [InlineData("fr-FR", "est partie le lundi 1 mars 2027 :")]
    [InlineData("pt-BR", "saiu (segunda-feira, 1 de março de 2027):")]
    [InlineData("en-US", "left on Monday, March 1, 2027:")]
    [InlineData("en-GB", "left on Monday 1 March 2027:")]
    public async Task A_day_in_a_letter_is_written_as_in_the_country_of_the_order(string language, string left)
    {
        await using var shop = await ExampleReeds.NewShop();
        await Watch.Promised.Stock(shop, 3.5, 9);
        var id = await Ordered(shop, language);

        await shop.PostJson($"/api/orders/{id}/ship", new { });

        var shipped = Assert.Single(await Letters(shop, "order-shipped"));
        Assert.Contains(left, shipped.Text, StringComparison.Ordinal);
        Assert.Equal(language, shipped.Language);
        Assert.Equal(language, (await shop.GetJson($"/api/orders/{id}")).GetProperty("language").GetString());
    }

    /// <summary>As it was typed, with what means something else in HTML.</summary>
    [Theory]
    [InlineData("en", "Tracking: RR 123 456 785 <PT> & 7")]
    [InlineData("de", "Sendungsnummer: RR 123 456 785 <PT> & 7")]
    public async Task The_letter_of_a_shipped_order_holds_the_tracking_number_that_was_typed(
        string language,
        string expected
    )
    {
        await using var shop = await ExampleReeds.NewShop();
        await Watch.Promised.Stock(shop, 3.5, 9);
        var id = await Ordered(shop, language);

        await shop.PostJson($"/api/orders/{id}/ship", new { tracking = "RR 123 456 785 <PT> & 7" });

        var letter = Letter.Of(Assert.Single(await Letters(shop, "order-shipped")), new MailOptions());
        Assert.Contains(expected, letter.TextBody, StringComparison.Ordinal);
        Assert.Contains(WebUtility.HtmlEncode(expected), letter.HtmlBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_letter_on_the_page_says_its_own_language_whoever_reads_it()
    {
        await using var shop = await ExampleReeds.NewShop();
        await Watch.Promised.Stock(shop, 3.5, 9);
        var id = await Ordered(shop, "fr");
        using var reader = new Visitor(shop);
        reader.Browser.DefaultRequestHeaders.TryAddWithoutValidation("Accept-Language", "de-DE");

        var page = await reader.Read($"/orders/{id}");

        Assert.Contains("<html lang=\"de-DE\">", page, StringComparison.Ordinal);
        Assert.Contains("<details lang=\"fr-FR\">", page, StringComparison.Ordinal);
        Assert.Contains("merci de votre commande", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_language_nobody_writes_in_is_refused_and_none_is_British_English()
    {
        await using var shop = await ExampleReeds.NewShop();
        await Watch.Promised.Stock(shop, 3.5, 9);
        var wish = Wish(await Quote(shop), "ja");

        var problem = await ShopHost.ReadProblem(
            await shop.Send(HttpMethod.Post, "/api/orders", wish),
            HttpStatusCode.UnprocessableEntity,
            "invalid-value"
        );

        Assert.Equal("language", problem.GetProperty("field").GetString());
        Assert.Contains("pt-BR", problem.GetProperty("allowed").GetString(), StringComparison.Ordinal);
        wish.AsObject().Remove("language");
        Assert.Equal("en-GB", (await shop.PostJson("/api/orders", wish)).GetProperty("language").GetString());
    }

    [Fact]
    public void Every_name_of_a_ready_route_is_a_word_in_each_language()
    {
        var names = ReadyRoutes.All.SelectMany(ready =>
            ready.Route.Steps.Select(step => step.Name).Append(ready.Name).Append(ready.Instrument)
        );
        foreach (var language in new[] { "de-DE", "fr-FR", "pt-PT" })
        {
            Assert.All(names, name => Assert.NotEqual(name, Languages.In(language, () => ReadyNames.Said(name))));
        }

        Assert.Equal("My own step", Languages.In("de-DE", () => ReadyNames.Said("My own step")));
        Assert.All(names, name => Assert.Equal(name, ReadyNames.Said(name)));
    }

    internal static bool HasEnglish(OutboxMessage letter) =>
        TextsFacts
            .EnglishTexts()
            .SelectMany(text => text.Split('{', '}'))
            .Where(piece => piece.Length > 12 && piece.Contains(' ', StringComparison.Ordinal))
            .Any(piece => $"{letter.Title}\n{letter.Text}".Contains(piece, StringComparison.Ordinal));

    private static async Task<string> Quote(ShopHost shop)
    {
        var lines = JsonSerializer.SerializeToNode(ExampleReeds.Lines((3.5, 4)), ShopJson.Options)!;
        lines["partsAreFine"] = true;
        return (await shop.PostJson("/api/quotes", lines)).GetProperty("id").GetString()!;
    }

    private static JsonNode Wish(string quote, string language)
    {
        var wish = JsonSerializer.SerializeToNode(ExampleReeds.Order(quote), ShopJson.Options)!;
        wish["language"] = language;
        return wish;
    }

    private static async Task<string> Ordered(ShopHost shop, string language) =>
        (await shop.PostJson("/api/orders", Wish(await Quote(shop), language))).GetProperty("id").GetString()!;

    private static Task<JsonElement> Ask(ShopHost shop, string order) =>
        shop.PostJson(
            $"/api/orders/{order}/ask",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                also = 3,
            }
        );
}
