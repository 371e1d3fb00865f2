using System.Net;

namespace ReedShop.Tests.Checkout;

/// <summary>The buyer's form as a browser sends it.</summary>
public sealed class OrderFormFacts
{
    private const string Sampler = "2.5+3+3.5";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_sampler_becomes_ordinary_lines_priced_and_promised_like_them()
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);

        var seen = await buyer.Follow(await See(buyer, (Sampler, "2")));
        var ordered = await Order(buyer, seen, ("2.5", "2"), ("3", "2"), ("3.5", "2"));

        Assert.Contains("<b>€21.00</b>", Text(seen), StringComparison.Ordinal);
        Assert.Contains("2 of 2½ (B-flat clarinet): all lie in the drawer.", Text(seen), StringComparison.Ordinal);
        var lines = (await shop.GetJson($"/api{ordered}")).GetProperty("lines").EnumerateArray().ToArray();
        Assert.Equal([2.5, 3, 3.5], lines.Select(line => line.GetProperty("strength").GetDouble()));
        Assert.All(lines, line => Assert.Equal(2, line.GetProperty("quantity").GetInt32()));
    }

    [Fact]
    public async Task A_sampler_is_live_as_ordinary_lines_are()
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);

        var three = await (await Send(buyer, "look", ("2.5", "2"), ("3", "2"), ("3.5", "2"))).Content.ReadAsStringAsync(
            Cancel
        );
        var sampler = await (await Send(buyer, "look", (Sampler, "2"))).Content.ReadAsStringAsync(Cancel);

        Assert.Contains("€21.00", Text(sampler), StringComparison.Ordinal);
        Assert.Equal(three, sampler);
    }

    [Fact]
    public async Task Samplers_are_offered_of_strengths_the_model_has()
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);

        var page = await buyer.Read("/");
        var refused = await buyer.Follow(await See(buyer, ("4+4.5+5", "1")));

        Assert.Contains("<option value=\"2.5&#x2B;3&#x2B;3.5\"", page, StringComparison.Ordinal);
        Assert.Contains("sampler 3, 3½, 4", Text(page), StringComparison.Ordinal);
        Assert.DoesNotContain("sampler 3½, 4,", Text(page), StringComparison.Ordinal);
        Assert.Contains("B-flat clarinet is not made in 4½.", Text(refused), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_date_has_an_address_of_its_own_that_can_be_loaded_again_and_read_in_another_language()
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);

        var seen = await See(buyer, ("3", "4"));
        Assert.Equal(HttpStatusCode.SeeOther, seen.StatusCode);
        var address = seen.Headers.Location!.ToString();
        var first = await buyer.Read(address);

        Assert.Matches("^/\\?quote=[0-9a-f]{32}#offer$", address);
        Assert.Contains("4 of 3 (B-flat clarinet): all lie in the drawer.", Text(first), StringComparison.Ordinal);
        Assert.Contains(
            "name=\"quantity\" type=\"number\" inputmode=\"numeric\" min=\"1\" max=\"100\" value=\"4\"",
            first,
            StringComparison.Ordinal
        );
        Assert.Contains($"href=\"?quote={address[8..40]}&amp;lang=de\"", first, StringComparison.Ordinal);
        var german = Text(await buyer.Read(address.Replace("#offer", "&lang=de", StringComparison.Ordinal)));
        Assert.Contains("Versand bis", german, StringComparison.Ordinal);
        Assert.DoesNotContain("all lie in the drawer", german, StringComparison.Ordinal);
    }

    /// <summary>A browser sends neither; whoever does is told so, and the log stays quiet.</summary>
    [Theory]
    [InlineData(3000, "1")]
    [InlineData(1, "\0")]
    public async Task A_form_that_cannot_be_read_is_refused(int fields, string value)
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);

        var answer = await buyer.PostFrom("/", "/", Enumerable.Repeat(("strength", value), fields));

        Assert.NotEqual(HttpStatusCode.InternalServerError, answer.StatusCode);
        Assert.InRange((int)answer.StatusCode, 400, 422);
    }

    [Fact]
    public async Task A_date_that_ran_out_says_so_and_keeps_the_reeds_that_were_typed()
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);
        var address = (await See(buyer, ("3", "4"))).Headers.Location!.ToString();
        shop.Time.Advance(TimeSpan.FromHours(25));

        var later = await buyer.Read(address);

        Assert.Contains("This quote has run out.", later, StringComparison.Ordinal);
        Assert.Contains("value=\"4\"", later, StringComparison.Ordinal);
        Assert.DoesNotContain("name=\"email\"", later, StringComparison.Ordinal);
        Assert.Contains("This quote has run out.", await buyer.Read("/?quote=unknown"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_the_buyer_typed_of_himself_is_not_lost_when_the_reeds_change()
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);

        var again = await buyer.Post("/", [.. Lines(("3", "4")), ("do", "see"), ("name", "Ana Example")]);

        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        Assert.Contains(
            "value=\"Ana Example\"",
            await again.Content.ReadAsStringAsync(Cancel),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("email", "ana@", "email", "The e-mail address cannot be written to.")]
    [InlineData("postalCode", " ", "postalCode", "This is needed to send the parcel.")]
    [InlineData("country", "PX", "country", "There is no country with the code PX.")]
    [InlineData("quantity", "101", "quantity-0", "The quantity cannot be used. Accepted: 1 to 100 reeds.")]
    [InlineData("strength", "5", "strength-0", "B-flat clarinet is not made in 5.")]
    [InlineData("strength", "4+4.5+5", "strength-0", "B-flat clarinet is not made in 4½.")]
    public async Task While_one_types_the_shop_says_what_it_would_refuse(
        string field,
        string typed,
        string noted,
        string says
    )
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);
        var form = Complete().ToDictionary(part => part.Name, part => part.Value);
        form[field] = typed;

        var notes = await Check(buyer, [.. form.Select(part => (part.Key, part.Value))]);

        Assert.Contains($"id=\"{noted}-note\"", notes, StringComparison.Ordinal);
        Assert.Contains(says, notes.Replace("</strong><span>", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(2, notes.Split("class=\"refusal\"").Length);
        Assert.DoesNotContain("alert", notes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_that_would_be_taken_has_no_notes_and_each_part_that_would_not_has_its_own()
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);

        Assert.Equal("", (await Check(buyer, Complete())).Trim());
        var notes = await Check(buyer, [.. Lines(("3", "x"), ("3", "")), ("email", "a b"), ("country", "Portugal")]);

        var ids = new[] { "quantity-0", "name", "email", "street", "postalCode", "locality" };
        Assert.Equal(ids.Length + 1, notes.Split("class=\"refusal\"").Length);
        Assert.All(ids, id => Assert.Contains($"id=\"{id}-note\"", notes, StringComparison.Ordinal));
        Assert.Empty((await shop.GetJson("/api/orders")).GetProperty("items").EnumerateArray());
    }

    [Theory]
    [InlineData("PT")]
    [InlineData("uk")]
    [InlineData("Österreich")]
    public async Task A_country_is_a_known_code_or_its_name(string country)
    {
        await using var shop = await Stocked();
        using var buyer = new Visitor(shop);

        var notes = await Check(buyer, [.. Complete().Where(part => part.Name != "country"), ("country", country)]);

        Assert.Equal("", notes.Trim());
    }

    private static async Task<ShopHost> Stocked()
    {
        var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        foreach (var strength in new[] { 2.5, 3, 3.5 })
        {
            await Watch.Promised.Stock(shop, strength, 9);
        }

        return shop;
    }

    private static (string Name, string Value)[] Complete() => [.. Lines(("3", "2")), .. Buyer];

    private static (string Name, string Value)[] Buyer =>
        [
            ("name", "Ana"),
            ("email", "ana@example.org"),
            ("street", "1 Quay"),
            ("postalCode", "1000"),
            ("locality", "Harbour"),
            ("country", "PT"),
        ];

    private static (string Name, string Value)[] Lines(params (string Strength, string Quantity)[] lines) =>
        [
            .. lines.SelectMany(line =>
                new[] { ("model", ExampleReeds.Clarinet), ("strength", line.Strength), ("quantity", line.Quantity) }
            ),
        ];

    private static Task<HttpResponseMessage> Send(
        Visitor buyer,
        string what,
        params (string Strength, string Quantity)[] lines
    ) => buyer.Post("/", [.. Lines(lines), ("do", what)]);

    private static Task<HttpResponseMessage> See(Visitor buyer, params (string Strength, string Quantity)[] lines) =>
        Send(buyer, "see", lines);

    private static async Task<string> Check(Visitor buyer, (string Name, string Value)[] typed)
    {
        var answer = await buyer.PostFrom("/", "/orders/check", typed);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return Text(await answer.Content.ReadAsStringAsync(Cancel));
    }

    /// <summary>Takes the date of a page; the address of the order's own page.</summary>
    private static async Task<string> Order(
        Visitor buyer,
        string seen,
        params (string Strength, string Quantity)[] lines
    )
    {
        var quote = seen.Split("name=\"quoteId\" value=\"")[1].Split('"')[0];
        var answer = await buyer.Post("/", [.. Lines(lines), .. Buyer, ("do", "order"), ("quoteId", quote)]);
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        return answer.Headers.Location!.ToString();
    }

    private static string Text(string page) => WebUtility.HtmlDecode(page);
}
