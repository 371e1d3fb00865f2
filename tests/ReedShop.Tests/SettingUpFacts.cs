using System.Net;

namespace ReedShop.Tests;

/// <summary>A new shop is furnished on its pages alone.</summary>
public sealed class SettingUpFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_pages_open_for_the_owner_and_lead_a_stranger_to_the_sign_in()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        using var stranger = new Visitor(shop);
        foreach (var path in new[] { "/bench/shop", "/bench/models", "/bench/cane", "/bench/history", "/bench/start" })
        {
            Assert.Equal((path, HttpStatusCode.OK), (path, (await owner.Get(path)).StatusCode));
            Assert.Contains(
                "/sign-in?returnUrl=",
                (await stranger.Get(path)).Headers.Location?.OriginalString,
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public async Task A_model_and_cane_added_on_their_pages_make_a_quote_possible()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        Assert.Contains("What next?", await owner.Read("/bench/week"), StringComparison.Ordinal);

        Sent("/bench/models", await AddClarinet(owner));
        Sent(
            "/bench/cane",
            await owner.Post(
                "/bench/cane",
                ("lot", "2025 A"),
                ("model", "clarinet"),
                ("supplier", "a grower"),
                ("harvest", "2023"),
                ("seasonedFrom", "2025-01-01"),
                ("blanks", "200")
            )
        );

        // Six counted steps of which nothing is known: no promise of 90 in 100 can be given before the first batches.
        var quote = await shop.PostJson(
            "/api/quotes",
            new
            {
                lines = new[]
                {
                    new
                    {
                        model = "clarinet",
                        strength = 3,
                        quantity = 1,
                    },
                },
                confidence = 0.6,
            }
        );

        Assert.Equal(2500, quote.GetProperty("price").GetProperty("amount").GetInt64());
        Assert.NotNull(quote.GetProperty("shipBy").GetString());
        Assert.DoesNotContain("What next?", await owner.Read("/bench/week"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_settings_typed_on_the_page_are_those_the_API_shows()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        Sent("/bench/shop?saved=true", await owner.Post("/bench/shop", Settings("9:00-12:00, 14:00-17:00")));

        var settings = await shop.GetJson("/api/shop");
        var monday = settings.GetProperty("hours").GetProperty("monday");
        Assert.Equal("14:00", monday[1].GetProperty("from").GetString());
        Assert.False(settings.GetProperty("hours").TryGetProperty("tuesday", out _));
        Assert.Equal("concert", settings.GetProperty("otherDays")[0].GetProperty("reason").GetString());
        Assert.Equal(0.125, settings.GetProperty("dampNightChance").GetDouble());
        Assert.Equal(0.04, settings.GetProperty("lostEveningChance").GetDouble());
        Assert.Equal(0.7, settings.GetProperty("watchBelow").GetDouble());
        Assert.Equal(0.55, settings.GetProperty("clipChance").GetDouble());
        Assert.Equal(
            ["tuesday", "friday"],
            settings.GetProperty("shipDays").EnumerateArray().Select(day => day.GetString())
        );
        Assert.False(settings.GetProperty("selling").GetBoolean());
    }

    [Fact]
    public async Task Refused_settings_are_shown_as_they_were_typed_and_nothing_is_saved()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var answer = await owner.Post("/bench/shop", Settings("in the evening"));

        var page = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("value=\"in the evening\"", page, StringComparison.Ordinal);
        Assert.Contains("value=\"Quay reeds\"", page, StringComparison.Ordinal);
        Assert.Contains("Accepted: stretches such as 19:00-21:00", page, StringComparison.Ordinal);
        Assert.Equal("Harbour reeds", (await shop.GetJson("/api/shop")).GetProperty("name").GetString());
    }

    [Fact]
    public async Task Settings_changed_meanwhile_are_not_overwritten()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await owner.Post("/bench/shop", Settings("19:00-20:00"));

        var late = await owner.Post("/bench/shop", Settings("8:00-9:00"));

        Assert.Equal(HttpStatusCode.PreconditionFailed, late.StatusCode);
        var monday = (await shop.GetJson("/api/shop")).GetProperty("hours").GetProperty("monday")[0];
        Assert.Equal("19:00", monday.GetProperty("from").GetString());
    }

    [Fact]
    public async Task A_model_gets_another_price_and_is_no_longer_sold()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await AddClarinet(owner);

        Sent(
            "/bench/models",
            await owner.PostFrom(
                "/bench/models",
                "/bench/models/price",
                ("model", "clarinet"),
                ("version", "1"),
                ("price", "30.5")
            )
        );
        var dear = await owner.PostFrom(
            "/bench/models",
            "/bench/models/price",
            ("model", "clarinet"),
            ("version", "2"),
            ("price", "a lot")
        );
        Sent(
            "/bench/models",
            await owner.PostFrom(
                "/bench/models",
                "/bench/models/selling",
                ("model", "clarinet"),
                ("version", "2"),
                ("selling", "no")
            )
        );

        Assert.Equal(HttpStatusCode.UnprocessableEntity, dear.StatusCode);
        Assert.Contains("value=\"a lot\"", await dear.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        var model = await shop.GetJson("/api/models/clarinet");
        Assert.Equal(3050, model.GetProperty("price").GetProperty("amount").GetInt64());
        Assert.False(model.GetProperty("selling").GetBoolean());
    }

    [Fact]
    public async Task A_ready_model_is_not_added_twice()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await AddClarinet(owner);

        var again = await AddClarinet(owner);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, again.StatusCode);
        Assert.Contains("there already", await again.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_counted_lot_gives_what_was_counted()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await AddClarinet(owner);
        await shop.PostJson("/api/cane", ExampleShop.Cane);

        Sent(
            "/bench/cane",
            await owner.PostFrom("/bench/cane", "/bench/cane/count", ("lot", "2025 A"), ("blanksLeft", "35"))
        );
        var wrong = await owner.PostFrom("/bench/cane", "/bench/cane/count", ("lot", "2025 A"), ("blanksLeft", "some"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        Assert.Equal(35, (await shop.GetJson("/api/cane"))[0].GetProperty("blanksLeft").GetInt32());
    }

    [Fact]
    public async Task A_file_of_past_batches_is_reported_row_by_row()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await AddClarinet(owner);

        var answer = await Upload.Steps(
            owner,
            "batch,model,aim,caneLot,date,step,in,out\n"
                + "P1,clarinet,3,A,2026-11-02,profile,10,9\n"
                + "P1,clarinet,3,A,2026-11-02,clip,9,10\n"
        );
        var nothing = await Upload.Steps(owner, "");

        var page = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("1 past batch is", page, StringComparison.Ordinal);
        Assert.Contains("out is 10, but only 9 came in; write 0 to 9", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, nothing.StatusCode);
    }

    private static Task<HttpResponseMessage> AddClarinet(Visitor owner) =>
        owner.Post("/bench/models", ("ready", "clarinet"), ("price", "25"), ("strengths", "2.5, 3, 3½"));

    private static void Sent(string address, HttpResponseMessage answer)
    {
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        Assert.Equal(address, answer.Headers.Location?.OriginalString);
    }

    private static (string Name, string Value)[] Settings(string monday) =>
        [
            ("version", "1"),
            ("name", "Quay reeds"),
            ("zone", "Europe/Lisbon"),
            ("currency", "EUR"),
            ("email", "maker@example.org"),
            ("Monday", monday),
            ("otherDays", "2027-03-03 concert"),
            ("shipDays", "Tuesday"),
            ("shipDays", "Friday"),
            ("rackBlanks", "40"),
            ("mostBlanksPerBatch", "20"),
            ("confidence", "90"),
            ("dampNightChance", "12.5"),
            ("lostEveningChance", "4"),
            ("watchBelow", "70"),
            ("clipChance", "55"),
            ("reminderAt", "07:30"),
            ("gradeSteps", "Half"),
            ("yieldHalfLifeDays", "365"),
            ("beforeMarker", "25"),
            ("shelfService", "90"),
            ("blankCost", "0.80"),
            ("benchHourCost", "18"),
            ("lateDayCost", "10"),
            ("surplusShare", "30"),
        ];
}
