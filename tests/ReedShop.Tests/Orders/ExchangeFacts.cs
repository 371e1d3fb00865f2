using System.Net;
using System.Text.Json;
using ReedShop.Orders;
using ReedShop.Platform.Http;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Orders;

/// <summary>Unopened reeds for another strength: a wish, an answer.</summary>
public sealed class ExchangeFacts
{
    [Fact]
    public async Task A_buyer_asks_the_maker_agrees_and_each_gets_one_letter()
    {
        await using var shop = await ExampleReeds.NewShop();
        var order = await Shipped(shop, language: "de");

        var asked = await ShopHost.Read(await Ask(shop, order, 3.5, 3, 2));
        await Ask(shop, order, 3.5, 3, 2);
        var told = Assert.Single(await Letters(shop, "exchange-asked"));
        Assert.Equal("maker@example.org", told.To);
        Assert.Contains("2 of 3½ (clarinet) for 3", told.Title, StringComparison.Ordinal);
        Assert.Contains("/bench/orders", told.Text, StringComparison.Ordinal);
        Assert.Equal("asked", Only(asked).GetProperty("status").GetString());

        await shop.PostJson($"/api/orders/{order}/exchange/answer", Reply(true, "Please send them by post."));
        await shop.PostJson($"/api/orders/{order}/exchange/answer", Reply(true, "Please send them by post."));

        var answer = Assert.Single(await Letters(shop, "exchange-answered"));
        Assert.Equal("ana@example.org", answer.To);
        Assert.Contains("2 in Stärke 3½ (B-Klarinette) gegen Stärke 3", answer.Text, StringComparison.Ordinal);
        Assert.Contains("Die Antwort ist ja: Please send them by post.", answer.Text, StringComparison.Ordinal);
        Assert.Contains("nie wieder verkauft", answer.Text, StringComparison.Ordinal);
        var now = Only(await shop.GetJson($"/api/orders/{order}"));
        Assert.Equal("agreed", now.GetProperty("status").GetString());
        Assert.Equal("Please send them by post.", now.GetProperty("answer").GetString());
    }

    [Fact]
    public async Task A_wish_sent_several_times_at_once_is_one_wish()
    {
        await using var shop = await ExampleReeds.NewShop();
        var order = await Shipped(shop);

        var answers = await Task.WhenAll(Enumerable.Range(0, 5).Select(_ => Ask(shop, order, 3.5, 3, 2)));

        Assert.All(
            answers,
            answer => Assert.Contains(answer.StatusCode, new[] { HttpStatusCode.OK, HttpStatusCode.ServiceUnavailable })
        );
        Assert.Single(await Letters(shop, "exchange-asked"));
        Only(await shop.GetJson($"/api/orders/{order}"));
    }

    [Fact]
    public async Task What_was_declined_may_be_asked_for_again_and_what_was_agreed_to_may_not()
    {
        await using var shop = await ExampleReeds.NewShop();
        var order = await Shipped(shop);
        await Ask(shop, order, 3.5, 3, 4);
        await shop.PostJson($"/api/orders/{order}/exchange/answer", Reply(false, "Those are sold out."));

        await ShopHost.Read(await Ask(shop, order, 3.5, 4, 3));
        await shop.PostJson($"/api/orders/{order}/exchange/answer", Reply(true, "Gladly.", number: 2));

        var tooMany = await Refused(await Ask(shop, order, 3.5, 4, 2), "invalid-value");
        Assert.Equal("quantity", tooMany.GetProperty("field").GetString());
        Assert.Equal("1 to 1", tooMany.GetProperty("allowed").GetString());
        await ShopHost.Read(await Ask(shop, order, 3.5, 4, 1));
        await Refused(await Ask(shop, order, 3.5, 3, 1), "wrong-stage", HttpStatusCode.Conflict);
    }

    [Theory]
    [InlineData(3, 3.5, 1, "strength", "3½ (B-flat clarinet)")]
    [InlineData(3.5, 3.5, 1, "to", "2½, 3, 4")]
    [InlineData(3.5, 5, 1, "to", "2½, 3, 4")]
    [InlineData(3.5, 3, 0, "quantity", "1 to 4")]
    [InlineData(3.5, 3, 5, "quantity", "1 to 4")]
    public async Task A_wish_that_cannot_be_met_says_what_could(
        double strength,
        double to,
        int quantity,
        string field,
        string allowed
    )
    {
        await using var shop = await ExampleReeds.NewShop();
        var order = await Shipped(shop);

        var refusal = await Refused(await Ask(shop, order, strength, to, quantity), "invalid-value");

        Assert.Equal(field, refusal.GetProperty("field").GetString());
        Assert.Equal(allowed, refusal.GetProperty("allowed").GetString());
        Assert.Empty(await Letters(shop, "exchange-asked"));
    }

    [Fact]
    public async Task Nothing_is_exchanged_before_it_was_shipped_and_nobody_but_the_owner_answers()
    {
        await using var shop = await ExampleReeds.NewShop();
        var order = await Ordered(shop, "en");
        await Refused(await Ask(shop, order, 3.5, 3, 1), "wrong-stage", HttpStatusCode.Conflict);
        await shop.PostJson($"/api/orders/{order}/ship", new { });
        await Ask(shop, order, 3.5, 3, 1);

        var path = $"/api/orders/{order}/exchange/answer";
        var guest = await ShopHost.Send(shop.Guest, HttpMethod.Post, path, Reply(true, "Yes."));
        await Refused(guest, "not-signed-in", HttpStatusCode.Unauthorized);
        await Refused(await shop.Send(HttpMethod.Post, path, Reply(true, " ")), "invalid-value");
        await Refused(
            await shop.Send(HttpMethod.Post, path, Reply(true, "Yes.", 9)),
            "not-found",
            HttpStatusCode.NotFound
        );
        await shop.PostJson(path, Reply(true, "Yes."));
        await Refused(
            await shop.Send(HttpMethod.Post, path, Reply(false, "No.")),
            "wrong-stage",
            HttpStatusCode.Conflict
        );
        Assert.Single(await Letters(shop, "exchange-answered"));
    }

    [Fact]
    public async Task Both_sides_see_it_on_their_pages_and_the_owner_answers_there()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var order = await Shipped(shop);
        using var buyer = new Visitor(shop);
        buyer.Browser.DefaultRequestHeaders.TryAddWithoutValidation("Accept-Language", "de-DE");
        var page = $"/orders/{order}";

        var asked = await buyer.PostFrom(
            page,
            $"{page}/exchange",
            ("reeds", "clarinet 3.5"),
            ("quantity", "1"),
            ("to", "4")
        );
        Assert.Equal(HttpStatusCode.SeeOther, asked.StatusCode);
        var waits = Text(await buyer.Read(page));
        Assert.Contains(
            "1 in Stärke 3½ (B-Klarinette) gegen Stärke 4: <b>wartet auf Antwort.</b>",
            waits,
            StringComparison.Ordinal
        );
        var book = Text(await owner.Read("/bench/orders"));
        Assert.Contains("would send back 1 of 3½ (clarinet) for 4, unopened", book, StringComparison.Ordinal);
        Assert.Contains("the buyer reads English", book, StringComparison.Ordinal);
        Assert.Contains("exchange of 1 of 3½ (clarinet) for 4: not answered yet", book, StringComparison.Ordinal);

        await owner.PostFrom(
            "/bench/orders",
            $"/bench/orders/{order}/exchange",
            ("number", "1"),
            ("answer", "no"),
            ("says", "None of 4 are left <now>.")
        );

        Assert.Contains(
            "<b>Nein.</b> None of 4 are left <now>.",
            Text(await buyer.Read(page)),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("would send back", await owner.Read("/bench/orders"), StringComparison.Ordinal);
    }

    [Fact]
    public void No_move_of_an_exchange_is_ambiguous_and_an_answer_is_final()
    {
        Assert.Equal(ExchangeMoves.All.Count, ExchangeMoves.All.DistinctBy(row => (row.Move, row.From)).Count());
        Assert.All(ExchangeMoves.All, row => Assert.Equal(ExchangeStage.Asked, row.From));
        Assert.All(Enum.GetValues<ExchangeMove>(), move => Assert.NotNull(ExchangeMoves.To(move, ExchangeStage.Asked)));
    }

    private static async Task<string> Ordered(ShopHost shop, string language)
    {
        await Watch.Promised.Stock(shop, 3.5, 4);
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 4)));
        var wish = JsonSerializer.SerializeToNode(
            ExampleReeds.Order(quote.GetProperty("id").GetString()!),
            ShopJson.Options
        )!;
        wish["language"] = language;
        return (await shop.PostJson("/api/orders", wish)).GetProperty("id").GetString()!;
    }

    private static async Task<string> Shipped(ShopHost shop, string language = "en")
    {
        var order = await Ordered(shop, language);
        await shop.PostJson($"/api/orders/{order}/ship", new { });
        return order;
    }

    private static Task<HttpResponseMessage> Ask(
        ShopHost shop,
        string order,
        double strength,
        double to,
        int quantity
    ) =>
        ShopHost.Send(
            shop.Guest,
            HttpMethod.Post,
            $"/api/orders/{order}/exchange",
            new
            {
                model = ExampleReeds.Clarinet,
                strength,
                to,
                quantity,
            }
        );

    private static object Reply(bool accept, string says, int number = 1) =>
        new
        {
            number,
            accept,
            says,
        };

    private static JsonElement Only(JsonElement order) =>
        Assert.Single(order.GetProperty("exchanges").EnumerateArray());

    private static Task<JsonElement> Refused(
        HttpResponseMessage answer,
        string slug,
        HttpStatusCode status = HttpStatusCode.UnprocessableEntity
    ) => ShopHost.ReadProblem(answer, status, slug);

    private static string Text(string page) => WebUtility.HtmlDecode(page);
}
