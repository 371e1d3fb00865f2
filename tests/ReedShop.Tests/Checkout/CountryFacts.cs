using System.Net;
using System.Text.Json;
using ReedShop.Platform.Http;
using ReedShop.Tests.Platform;

namespace ReedShop.Tests.Checkout;

/// <summary>
/// The same order as each country writes it. The expected texts were written down by hand after CLDR's patterns for full
/// dates, standard currency amounts and grouping (values from memory), with the no-break spaces they stand with.
/// </summary>
public sealed class CountryFacts
{
    private static readonly DateTimeOffset Monday = new(2026, 11, 30, 9, 0, 0, TimeSpan.Zero);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("en-GB", "EUR", "Thursday 3 December 2026", "€12.50", "€1,250.00")]
    [InlineData("en-GB", "GBP", "Thursday 3 December 2026", "£12.50", "£1,250.00")]
    [InlineData("en-US", "USD", "Thursday, December 3, 2026", "$12.50", "$1,250.00")]
    [InlineData("pt-PT", "EUR", "quinta-feira, 3 de dezembro de 2026", "12,50\u00A0€", "1250,00\u00A0€")]
    [InlineData("pt-BR", "BRL", "quinta-feira, 3 de dezembro de 2026", "R$\u00A012,50", "R$\u00A01.250,00")]
    [InlineData("de-DE", "EUR", "Donnerstag, 3. Dezember 2026", "12,50\u00A0€", "1.250,00\u00A0€")]
    [InlineData("fr-FR", "EUR", "jeudi 3 décembre 2026", "12,50\u00A0€", "1\u202F250,00\u00A0€")]
    [InlineData("de-DE", "JPY", "Donnerstag, 3. Dezember 2026", "1.250\u00A0JPY", "125.000\u00A0JPY")]
    [InlineData("en-GB", "KWD", "Thursday 3 December 2026", "KWD\u00A01.250", "KWD\u00A0125.000")]
    [InlineData("fr-FR", "KWD", "jeudi 3 décembre 2026", "1,250\u00A0KWD", "125,000\u00A0KWD")]
    public async Task Day_number_and_money_are_those_of_the_readers_country(
        string country,
        string currency,
        string day,
        string each,
        string hundred
    )
    {
        await using var shop = await Selling(currency);
        using var buyer = await Buyer(shop, country);

        var form = Text(await buyer.Read("/"));
        var offer = Text(await See(buyer, ("quantity", "100")));
        var order = Text(await buyer.Read(await Ordered(buyer, 100)));

        Assert.Contains(each, form, StringComparison.Ordinal);
        Assert.Contains($">{day}</time>", offer, StringComparison.Ordinal);
        Assert.Contains($"<b>{hundred}</b>", offer, StringComparison.Ordinal);
        Assert.Contains($">{day}</time>", order, StringComparison.Ordinal);
        Assert.Contains(hundred, order, StringComparison.Ordinal);
        Assert.Contains("<option value=\"3.5\"", form, StringComparison.Ordinal);
        Assert.Contains(">3½</option>", form, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de-DE", "1 in Stärke 3½", "liegt in der Schublade.", "Do, 3. Dezember")]
    [InlineData("fr-FR", "1 en force 3½", "elle est dans le tiroir.", "jeu. 3 décembre")]
    [InlineData("pt-PT", "1 de força 3½", "está na gaveta.", "quinta, 3 de dezembro")]
    [InlineData("en-GB", "1 of 3½", "it lies in the drawer.", "Thu 3 December")]
    [InlineData("en-US", "1 of 3½", "it lies in the drawer.", "Thu, December 3")]
    public async Task One_reed_is_told_of_in_the_singular(string country, string wanted, string lies, string day)
    {
        await using var shop = await Selling("EUR");
        using var buyer = await Buyer(shop, country);

        var offer = Text(await See(buyer, ("quantity", "1"), ("needBy", "2026-12-03")));

        Assert.Contains(wanted, offer, StringComparison.Ordinal);
        Assert.Contains(lies, offer, StringComparison.Ordinal);
        Assert.Contains($"<time datetime=\"2026-12-03\">{day}</time>", offer, StringComparison.Ordinal);
    }

    /// <summary>Pages are read with all they can show at once; what is named by the maker (models, shop) is his own wording.</summary>
    [Theory]
    [InlineData("de-DE")]
    [InlineData("pt-PT")]
    [InlineData("fr-FR")]
    public async Task No_English_is_left_on_a_buyers_page(string country)
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await shop.PostJson("/api/drawer/count", Drawer(2));
        using var buyer = await Buyer(shop, country);
        var pages = new List<string>
        {
            await buyer.Read("/"),
            await See(buyer, ("quantity", "6"), ("partsAreFine", "1"), ("needBy", "2027-04-30")),
            await See(buyer, ("quantity", "6")),
            await See(buyer, ("quantity", "6"), ("needBy", "2027-03-03")),
            await See(buyer, ("quantity", "6"), ("needBy", "2027-03-01")),
            await See(buyer, ("quantity", "6"), ("needBy", "2029-03-01")),
            await See(buyer, ("quantity", "101")),
            await See(buyer, ("quantity", "six")),
            await See(buyer, ("quantity", "100"), ("confidence", "0.95")),
            await Read(await buyer.Post("/", [.. Line(6), ("do", "order"), ("quoteId", "none")])),
            await buyer.Read("/orders/unknown"),
            await buyer.Read("/orders/unknown/nothing"),
        };
        var address = await Ordered(buyer, 6);
        pages.Add(await buyer.Read(address));
        await Watch.Promised.Move(shop, address["/orders/".Length..], new DateOnly(2027, 6, 3));
        pages.Add(await buyer.Read(address));
        pages.Add(await Read(await buyer.Post(address + "/reply", ("reply", "change"), ("note", ""))));
        await buyer.PostFrom(address, address + "/reply", ("reply", "change"), ("note", "2½"));
        pages.Add(await buyer.Read(address));
        await buyer.PostFrom(address, address + "/cancel");
        pages.Add(await buyer.Read(address));
        pages.Add(await Read(await buyer.PostWith("no token", address + "/cancel")));

        var words = Text(string.Concat(pages));
        var left = EnglishPieces().Where(piece => words.Contains(piece, StringComparison.Ordinal));
        Assert.Empty(left);
        Assert.DoesNotContain("March", words, StringComparison.Ordinal);
        Assert.DoesNotContain("June", words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("pt-PT")]
    [InlineData("fr-FR")]
    public async Task No_English_is_left_on_what_a_buyer_sees_after_shipping_and_while_typing(string country)
    {
        await using var shop = await Selling("EUR");
        using var buyer = await Buyer(shop, country);
        var address = await Ordered(buyer, 2);
        await shop.PostJson($"/api{address}/ship", new { tracking = "AB 123" });
        var exchange = new[] { ("reeds", "clarinet 3.5"), ("to", "4"), ("quantity", "1") };
        var pages = new List<string>
        {
            await buyer.Read(address),
            await buyer.Follow(await buyer.PostFrom(address, $"{address}/exchange", exchange)),
            await buyer.Follow(
                await buyer.PostFrom(address, $"{address}/exchange", [.. exchange[..2], ("quantity", "9")])
            ),
            await buyer.Follow(await buyer.PostFrom(address, $"{address}/exchange", ("reeds", "clarinet 3.5"))),
            await buyer.Read($"{address}/receipt"),
            await buyer.Read("/?quote=none"),
            await buyer.Follow(await buyer.PostFrom("/", "/orders/check", [.. Line(101), ("country", "PX")])),
        };
        await shop.PostJson($"/api{address}/exchange/answer", Agreed);
        await shop.PostJson($"/api{address}/paid", new { });
        pages.Add(await buyer.Read(address));
        pages.Add(await buyer.Read($"{address}/receipt"));

        var words = Text(string.Concat(pages));
        var left = EnglishPieces().Where(piece => words.Contains(piece, StringComparison.Ordinal));
        Assert.Empty(left);
        Assert.DoesNotContain("December", words, StringComparison.Ordinal);
    }

    private static object Agreed =>
        new
        {
            number = 1,
            accept = true,
            says = "12 34",
        };

    [Fact]
    public async Task The_check_for_English_sees_it_on_an_English_page()
    {
        await using var shop = await Selling("EUR");
        using var buyer = await Buyer(shop, "en-GB");

        var words = Text(await See(buyer, ("quantity", "6")));

        Assert.True(EnglishPieces().Count(piece => words.Contains(piece, StringComparison.Ordinal)) > 20);
    }

    [Fact]
    public async Task A_letter_is_in_the_language_of_the_page_the_order_was_placed_on()
    {
        await using var shop = await Selling("EUR");
        using var buyer = await Buyer(shop, "de-DE");

        await Ordered(buyer, 2);
        await shop.Tick("deliver-messages");

        var file = Directory.EnumerateFiles(Path.Combine(shop.Folder, "mail")).Single();
        var letter = await MimeKit.MimeMessage.LoadAsync(file, Cancel);
        Assert.Equal("Bestellung 1 bei Harbour reeds: Versand bis Donnerstag, 3. Dezember 2026", letter.Subject);
        Assert.Contains("vielen Dank für Ihre Bestellung", letter.TextBody, StringComparison.Ordinal);
    }

    /// <summary>English texts of the resources between their places, where long enough to mean anything.</summary>
    private static string[] EnglishPieces() =>
        [
            .. TextsFacts
                .EnglishTexts()
                .SelectMany(text =>
                    System.Text.RegularExpressions.Regex.Split(text, @"\{\d\}", default, TimeSpan.FromMinutes(1))
                )
                .Where(piece => piece.Length > 12 && piece.Contains(' ', StringComparison.Ordinal))
                .Distinct(),
        ];

    /// <summary>A shop with an owner whose drawer holds enough.</summary>
    private static async Task<ShopHost> Selling(string currency)
    {
        var shop = await ShopHost.Start(Monday);
        var settings = ExampleShop.With();
        settings["currency"] = currency;
        await shop.PutJson("/api/shop", settings);
        var model = JsonSerializer.SerializeToNode(ExampleReeds.Model, ShopJson.Options)!;
        model["price"] = JsonSerializer.SerializeToNode(new { amount = 1250, currency });
        await shop.PutJson($"/api/models/{ExampleReeds.Clarinet}", model);
        await shop.PostJson("/api/drawer/count", Drawer(100));
        return shop;
    }

    private static object Drawer(int count) =>
        new
        {
            model = ExampleReeds.Clarinet,
            strength = 3.5,
            count,
        };

    private static async Task<Visitor> Buyer(ShopHost shop, string country)
    {
        using var owner = await Visitor.Owner(shop);
        var buyer = new Visitor(shop);
        buyer.Browser.DefaultRequestHeaders.TryAddWithoutValidation("Accept-Language", country);
        return buyer;
    }

    private static async Task<string> See(Visitor buyer, params (string Name, string Value)[] typed) =>
        await buyer.Follow(
            await buyer.Post("/", [("model", ExampleReeds.Clarinet), ("strength", "3.5"), ("do", "see"), .. typed])
        );

    private static (string Name, string Value)[] Line(int quantity) =>
        [
            ("model", ExampleReeds.Clarinet),
            ("strength", "3.5"),
            ("quantity", quantity.ToString(System.Globalization.CultureInfo.InvariantCulture)),
        ];

    /// <summary>The address of the order's own page.</summary>
    private static async Task<string> Ordered(Visitor buyer, int quantity)
    {
        var seen = await buyer.Follow(await buyer.Post("/", [.. Line(quantity), ("do", "see")]));
        var quote = seen.Split("name=\"quoteId\" value=\"")[1].Split('"')[0];
        var answer = await buyer.Post(
            "/",
            [
                .. Line(quantity),
                ("do", "order"),
                ("quoteId", quote),
                ("name", "Ana"),
                ("email", "ana@example.org"),
                ("street", "Kai 1"),
                ("postalCode", "1000"),
                ("locality", "X"),
                ("country", "PT"),
            ]
        );
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        return answer.Headers.Location!.ToString();
    }

    private static Task<string> Read(HttpResponseMessage answer) => answer.Content.ReadAsStringAsync(Cancel);

    private static string Text(string page) => WebUtility.HtmlDecode(page);
}
