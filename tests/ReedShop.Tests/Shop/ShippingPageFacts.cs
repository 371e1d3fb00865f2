using System.Net;

namespace ReedShop.Tests.Shop;

public sealed class ShippingPageFacts
{
    private const string Address = "/bench/shipping";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Zones_are_typed_kept_shown_again_and_taken_off()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var saved = await owner.Post(
            Address,
            [.. Form("1"), ("zone2-name", "the world"), ("zone2-elsewhere", "on"), ("zone2-bands", "60: 12")]
        );

        Assert.Equal(HttpStatusCode.SeeOther, saved.StatusCode);
        var shipping = (await shop.GetJson("/api/shop")).GetProperty("shipping");
        Assert.Equal(45, shipping.GetProperty("packingGrams").GetInt32());
        var home = shipping.GetProperty("zones")[0];
        Assert.Equal(["ES", "GB", "PT"], home.GetProperty("countries").EnumerateArray().Select(c => c.GetString()));
        Assert.Equal(
            [(50, 300), (100, 450)],
            home.GetProperty("bands")
                .EnumerateArray()
                .Select(b => (b.GetProperty("upToGrams").GetInt32(), b.GetProperty("priceMinor").GetInt32()))
        );
        Assert.Empty(shipping.GetProperty("zones")[1].GetProperty("countries").EnumerateArray());
        var page = WebUtility.HtmlDecode(await owner.Read(Address));
        Assert.Contains("100: 4.50", page, StringComparison.Ordinal);
        Assert.Contains("name=\"zone3-name\"", page, StringComparison.Ordinal);

        await owner.Post(Address, ("version", "2"), ("packingGrams", "45"));
        var none = (await shop.GetJson("/api/shop")).GetProperty("shipping").GetProperty("zones");
        Assert.Equal(0, none.GetArrayLength());
    }

    [Theory]
    [InlineData("packingGrams", "forty", "packingGrams", "“forty” is not a number.")]
    [InlineData("zone1-name", " ", "zone1-name", "The zone has no usable name.")]
    [InlineData("zone1-countries", "PT, PX", "zone1-countries", "There is no country “PX”.")]
    [InlineData("zone1-countries", " ", "zone1-countries", "The zone is for no country.")]
    [InlineData("zone1-elsewhere", "on", "zone1-countries", "names countries and is for everywhere else")]
    [InlineData("zone1-bands", "100 g: 4.50", "zone1-bands", "“100 g: 4.50” is no weight with a price.")]
    [InlineData("zone1-bands", "100: 4.505", "zone1-bands", "“100: 4.505” is no weight with a price.")]
    [InlineData("zone1-bands", "", "zone1-bands", "The zone has no price, or too many.")]
    [InlineData("zone1-bands", "0: 3", "zone1-bands", "A weight or a price cannot be used.")]
    public async Task What_cannot_be_used_is_said_beside_its_field_and_nothing_typed_is_lost(
        string field,
        string typed,
        string noted,
        string says
    )
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        var form = Form("1").ToDictionary(part => part.Name, part => part.Value);
        form[field] = typed;

        var answer = await owner.Post(Address, [.. form.Select(part => (part.Key, part.Value))]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Contains($"id=\"{noted}-note\"", page, StringComparison.Ordinal);
        Assert.Contains(says, page, StringComparison.Ordinal);
        Assert.Contains("Accepted:", page, StringComparison.Ordinal);
        Assert.Contains(typed, page, StringComparison.Ordinal);
        Assert.Contains(field == "zone1-bands" ? "PT; es, UK" : "100: 4,50", page, StringComparison.Ordinal);
        Assert.Equal(
            0,
            (await shop.GetJson("/api/shop")).GetProperty("shipping").GetProperty("zones").GetArrayLength()
        );
    }

    [Fact]
    public async Task A_page_that_is_out_of_date_changes_nothing_and_keeps_what_was_typed()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await owner.Post(Address, ("version", "1"), ("packingGrams", "50"));

        var answer = await owner.Post(Address, Form("1"));

        Assert.Equal(HttpStatusCode.PreconditionFailed, answer.StatusCode);
        Assert.Contains("PT; es, UK", await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        var again = await owner.Post(Address, Form("2"));
        Assert.Equal(HttpStatusCode.SeeOther, again.StatusCode);
    }

    [Fact]
    public async Task Other_settings_leave_the_zones_and_zones_leave_other_settings()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await owner.Post(Address, Form("1"));

        var saved = await owner.Post("/bench/shop", ExampleForm.With(("version", "2"), ("rackBlanks", "77")));

        Assert.Equal(HttpStatusCode.SeeOther, saved.StatusCode);
        await owner.Post(Address, [.. Form("3").Where(part => part.Name != "packingGrams"), ("packingGrams", "46")]);
        var settings = await shop.GetJson("/api/shop");
        Assert.Equal(77, settings.GetProperty("rackBlanks").GetInt32());
        Assert.Equal(46, settings.GetProperty("shipping").GetProperty("packingGrams").GetInt32());
        Assert.Equal(1, settings.GetProperty("shipping").GetProperty("zones").GetArrayLength());
    }

    [Fact]
    public async Task The_api_names_the_part_of_a_zone_that_is_wrong_and_wants_the_version()
    {
        await using var shop = await ExampleReeds.NewShop();
        var wrong = await Zones.Set(
            shop,
            new
            {
                name = "home",
                countries = new[] { "PX" },
                bands = Zones.Bands(100, 450),
            }
        );
        var problem = await ShopHost.ReadProblem(wrong, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("shipping.zones[0].countries", problem.GetProperty("field").GetString());

        var blind = await shop.Send(HttpMethod.Put, "/api/shop", await Zones.With(shop, Zones.Home));
        await ShopHost.ReadProblem(blind, HttpStatusCode.PreconditionRequired, "version-missing");
    }

    [Fact]
    public async Task A_zone_in_which_the_packing_alone_is_too_heavy_is_not_kept()
    {
        await using var shop = await ExampleReeds.NewShop();

        var wrong = await Zones.Set(
            shop,
            Zones.Home,
            new
            {
                name = "far",
                countries = new[] { "JP" },
                bands = Zones.Bands(20, 300, Zones.PackingGrams, 450),
            }
        );

        var problem = await ShopHost.ReadProblem(wrong, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("shipping.zones[1].bands", problem.GetProperty("field").GetString());
        Assert.StartsWith(
            "a weight above 40 grams",
            problem.GetProperty("allowed").GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task What_a_reed_weighs_is_set_in_the_list_of_models()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var before = await shop.GetJson("/api/models/clarinet");
        Assert.Equal(2, before.GetProperty("gramsPerReed").GetDecimal());

        var wrong = await owner.PostFrom("/bench/models", "/bench/models/weight", Weight("heavy"));
        var set = await owner.PostFrom("/bench/models", "/bench/models/weight", Weight("1,25"));

        Assert.Contains(
            "“heavy” is not a weight.",
            WebUtility.HtmlDecode(await wrong.Content.ReadAsStringAsync(Cancel)),
            StringComparison.Ordinal
        );
        Assert.Equal(HttpStatusCode.SeeOther, set.StatusCode);
        Assert.Equal(1.25m, (await shop.GetJson("/api/models/clarinet")).GetProperty("gramsPerReed").GetDecimal());
        await shop.PutJson("/api/models/clarinet", ExampleReeds.Model, "*");
        Assert.Equal(1.25m, (await shop.GetJson("/api/models/clarinet")).GetProperty("gramsPerReed").GetDecimal());
    }

    private static (string, string)[] Weight(string grams) =>
        [("model", "clarinet"), ("version", "1"), ("gramsPerReed", grams)];

    private static (string Name, string Value)[] Form(string version) =>
        [
            ("version", version),
            ("packingGrams", "45"),
            ("zone1-name", "home"),
            ("zone1-countries", "PT; es, UK"),
            ("zone1-bands", "100: 4,50\n50: 3"),
        ];
}
