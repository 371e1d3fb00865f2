using System.Net;
using System.Text.Json;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

/// <summary>A day a sitting cannot have is refused by the rule that forbids it, with the next days it can. Monday 1 March.</summary>
public sealed class HindranceFacts
{
    [Fact]
    public async Task A_closed_day_is_named_as_closed_and_the_next_open_ones_are_told()
    {
        await using var shop = await ExampleReeds.NewShop();
        await Start(shop, 10);

        var problem = await Refused(shop, sitting: 0, "2027-03-07");

        Assert.Equal("The bench is closed on Sun 7 March.", problem.GetProperty("detail").GetString());
        Assert.Equal("2027-03-08 or 2027-03-09 or 2027-03-10", problem.GetProperty("allowed").GetString());
    }

    [Fact]
    public async Task A_night_that_would_be_missing_is_named()
    {
        await using var shop = await ExampleReeds.NewShop();
        var batch = await Start(shop, 10);
        await Record(shop, batch, 1, Kept(10));
        await Record(shop, batch, 2, Kept(10));

        var problem = await Refused(shop, sitting: 0, "2027-03-01");

        Assert.StartsWith(
            "A night is missing: the blanks are not dry for it before Tue 2 March",
            problem.GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
        Assert.StartsWith("2027-03-02 or ", problem.GetProperty("allowed").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_full_evening_is_told_with_its_minutes()
    {
        await using var shop = await ExampleReeds.NewShop();
        var first = await Start(shop, 24);
        await Start(shop, 24);
        var evening = await NextDay(shop, first);
        for (var more = 0; more < 4; more++)
        {
            await Start(shop, 24);
        }

        var problem = await Refused(shop, sitting: 0, evening!, last: true);

        Assert.Matches(
            "^(The bench is full on Mon 1 March: it would take .* and 2 h are open|The rack is full in the night)",
            problem.GetProperty("detail").GetString()
        );
    }

    [Fact]
    public async Task The_page_says_the_days_in_words()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        await Start(shop, 10);
        var sitting = (await Planned(shop))[0];

        var answer = await owner.Get($"/bench/week?move={sitting}&to=2027-03-07");

        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        Assert.Contains("The bench is closed on Sun 7 March.", page, StringComparison.Ordinal);
        Assert.Contains("Accepted: Monday 8 March 2027 or Tuesday 9 March 2027", page, StringComparison.Ordinal);
    }

    private static async Task<string[]> Planned(ShopHost shop) =>
        [
            .. (await shop.GetJson("/api/week"))
                .GetProperty("days")
                .EnumerateArray()
                .SelectMany(day => day.GetProperty("sittings").EnumerateArray())
                .Select(sitting => sitting.GetProperty("id").GetString()!),
        ];

    private static async Task<JsonElement> Refused(ShopHost shop, int sitting, string date, bool last = false)
    {
        var batches = (await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray().ToArray();
        var batch = (last ? batches[0] : batches[^1]).GetProperty("id").GetString();
        var id = (await shop.GetJson($"/api/batches/{batch}"))
            .GetProperty("planned")[sitting]
            .GetProperty("id")
            .GetString();
        var answer = await shop.Send(HttpMethod.Post, $"/api/sittings/{id}/move", new { date, preview = true });
        return await ShopHost.ReadProblem(answer, HttpStatusCode.Conflict, "rule-broken");
    }
}
