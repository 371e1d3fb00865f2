using System.Globalization;
using System.Net;

namespace ReedShop.Tests.Workshop;

/// <summary>"Will tonight dry them?", on today's page and through the API.</summary>
public sealed class DryingFacts(SharedHost shared) : IClassFixture<SharedHost>
{
    private readonly ShopHost shop = shared.Shop;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>Moistures by the Wood Handbook's table 4-2 at 70 °F, 21.1 °C (values from memory).</summary>
    [Theory]
    [InlineData(45, 8.5, "dry")]
    [InlineData(65, 12.0, "slow")]
    [InlineData(80, 16.0, "damp")]
    public async Task The_air_of_a_room_is_sorted_with_the_moisture_of_wood(
        int humidity,
        double moisture,
        string overnight
    )
    {
        var drying = await shop.GetJson(Invariant($"/api/drying?celsius=21.1&humidity={humidity}"));

        Assert.Equal(moisture, drying.GetProperty("moisturePercent").GetDouble());
        Assert.Equal(overnight, drying.GetProperty("overnight").GetString());
        Assert.Equal(humidity, drying.GetProperty("humidity").GetDouble());
        var notes = drying.GetProperty("notes").EnumerateArray().Select(note => note.GetString()!).ToArray();
        Assert.Contains(notes, note => note.Contains("stands in for cane: a hint, never a rule", Ordinal));
        Assert.Contains(notes, note => note.Contains("mould", Ordinal));
    }

    [Theory]
    [InlineData("-0.1", "50", "celsius", "a temperature from 0 to 50 °C, such as 20.5")]
    [InlineData("50.1", "50", "celsius", "a temperature from 0 to 50 °C, such as 20.5")]
    [InlineData("NaN", "50", "celsius", "a temperature from 0 to 50 °C, such as 20.5")]
    [InlineData("20", "4.9", "humidity", "a relative humidity from 5 to 95 %, such as 55")]
    [InlineData("20", "95.1", "humidity", "a relative humidity from 5 to 95 %, such as 55")]
    public async Task Air_that_no_drying_room_has_is_refused_with_what_is_accepted(
        string celsius,
        string humidity,
        string field,
        string allowed
    )
    {
        var answer = await shop.Owner.GetAsync($"/api/drying?celsius={celsius}&humidity={humidity}", Cancel);

        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal(field, problem.GetProperty("field").GetString());
        Assert.Equal(allowed, problem.GetProperty("allowed").GetString());
    }

    [Fact]
    public async Task A_question_without_its_humidity_says_so()
    {
        var answer = await shop.Owner.GetAsync("/api/drying?celsius=20", Cancel);

        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.BadRequest, "unreadable");
        Assert.Equal("humidity", problem.GetProperty("field").GetString());
    }

    [Fact]
    public async Task The_hint_is_the_owners() =>
        await ShopHost.ReadProblem(
            await shop.Guest.GetAsync("/api/drying?celsius=20&humidity=50", Cancel),
            HttpStatusCode.Unauthorized,
            "not-signed-in"
        );

    [Fact]
    public async Task The_page_answers_beside_todays_work_and_keeps_what_was_typed()
    {
        await using var bench = await ShopHost.Start();
        using var owner = await Visitor.Owner(bench);
        await ExampleShop.StartTenBlanks(bench);

        var page = await Today(owner, "?celsius=20,5&humidity=65", HttpStatusCode.OK);

        Assert.Contains("Slow: one night may not be enough.", page, Ordinal);
        Assert.Contains("wood would come to rest at 12.0 % moisture", page, Ordinal);
        Assert.Contains("stands in for cane: a hint, never a rule", page, Ordinal);
        Assert.Contains("still damp after two nights", page, Ordinal);
        Assert.Contains("value=\"20,5\"", page, Ordinal);
        Assert.Contains("Before you start", page, Ordinal);
    }

    [Theory]
    [InlineData("?celsius=warm&humidity=65", "How warm is the room?", "from 0 to 50 °C")]
    [InlineData("?celsius=20&humidity=", "How humid is the room?", "from 5 to 95 %")]
    [InlineData("?celsius=80&humidity=65", "The temperature cannot be used.", "from 0 to 50 °C")]
    public async Task Numbers_that_cannot_be_used_cost_the_page_nothing_else(
        string question,
        string detail,
        string allowed
    )
    {
        await using var bench = await ShopHost.Start();
        using var owner = await Visitor.Owner(bench);
        await ExampleShop.StartTenBlanks(bench);

        var page = await Today(owner, question, HttpStatusCode.UnprocessableEntity);

        Assert.Contains(detail, page, Ordinal);
        Assert.Contains(allowed, page, Ordinal);
        Assert.Contains("Before you start", page, Ordinal);
        Assert.DoesNotContain("come to rest at", page, Ordinal);
    }

    [Fact]
    public async Task Unasked_the_page_says_nothing_of_the_night_and_another_day_does_not_ask()
    {
        await using var bench = await ShopHost.Start();
        using var owner = await Visitor.Owner(bench);

        Assert.DoesNotContain("come to rest at", await Today(owner, "", HttpStatusCode.OK), Ordinal);
        Assert.DoesNotContain("Will tonight dry", await Today(owner, "?date=2027-03-02", HttpStatusCode.OK), Ordinal);
    }

    private static StringComparison Ordinal => StringComparison.Ordinal;

    private static async Task<string> Today(Visitor owner, string question, HttpStatusCode status)
    {
        var answer = await owner.Get("/bench/today" + question);
        Assert.Equal(status, answer.StatusCode);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancel));
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
