using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;

namespace ReedShop.Tests.Insight;

public sealed partial class SizingPageFacts
{
    private const string Page = "/bench/yields?model=clarinet&strength=3&quantity=4&confidence=90&from=cane&aim=";

    [Fact]
    public async Task The_page_sizes_two_strengths_together()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);
        var page = await owner.Read($"{Page}&also=4&alsoQuantity=5");
        Assert.Contains("Both together: start", page, StringComparison.Ordinal);
        Assert.Contains("cost least", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_second_strength_one_is_sized()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);

        var page = await owner.Read($"{Page}&also=&alsoQuantity=");

        Assert.Contains("name=\"also\"><option value>none</option>", page, StringComparison.Ordinal);
        Assert.Contains("<b>Start ", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Both together", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("&also=4&alsoQuantity=")]
    [InlineData("&also=&alsoQuantity=5")]
    public async Task A_second_strength_without_its_number_or_the_other_way_round_is_refused(string second)
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);

        var answer = await owner.Get(Page + second);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("How many of which other strength?", page, StringComparison.Ordinal);
        Assert.Contains("Accepted: another strength and a whole number.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>Start ", page, StringComparison.Ordinal);
    }

    /// <summary>A usual evening is enough for 12 blanks, one batch has 24, and there is cane for 40.</summary>
    [Fact]
    public async Task A_number_of_blanks_that_is_too_many_for_several_things_names_them_all()
    {
        await using var shop = await ExampleReeds.ShopWithHistory(caneBlanks: 40);
        using var owner = await Visitor.Owner(shop);

        var rows = TooManyFor(await owner.Read("/bench/yields?model=clarinet&strength=3.5&quantity=30&confidence=90"));

        AssertRows(rows, 25, 40, "a usual evening for each sitting, one batch");
        AssertRows(rows, 41, 60, "a usual evening for each sitting, one batch, the cane");
        AssertRows(rows, 61, 120, "a usual evening for each sitting, one batch, the cane, the rack");
    }

    /// <summary>From the shelf, the 18 blanks that lie there bind instead of the cane.</summary>
    [Fact]
    public async Task Blanks_that_the_shelf_does_not_hold_are_too_many_for_the_shelf()
    {
        await using var shop = await ExampleReeds.ShopWithHistory(caneBlanks: 40);
        using var owner = await Visitor.Owner(shop);
        await shop.PostJson(
            "/api/shelf/count",
            new
            {
                model = ExampleReeds.Clarinet,
                caneLot = ExampleReeds.KindLot,
                count = 18,
            }
        );

        var rows = TooManyFor(
            await owner.Read("/bench/yields?model=clarinet&strength=3.5&quantity=30&confidence=90&from=shelf")
        );

        AssertRows(rows, 25, 60, "a usual evening for each sitting, the shelf, one batch");
        AssertRows(rows, 61, 120, "a usual evening for each sitting, the shelf, one batch, the rack");
    }

    /// <summary>What the table of a page says under "too many for", by the number of blanks.</summary>
    private static Dictionary<int, string> TooManyFor(string page) =>
        Row()
            .Matches(page)
            .ToDictionary(
                row => int.Parse(row.Groups["blanks"].ValueSpan, CultureInfo.InvariantCulture),
                row => row.Groups["limits"].Value
            );

    /// <summary>The rows shown that start from <paramref name="least"/> to <paramref name="most"/> blanks all name these limits, and there is one.</summary>
    private static void AssertRows(Dictionary<int, string> rows, int least, int most, string limits)
    {
        var among = rows.Where(row => row.Key >= least && row.Key <= most).ToArray();
        Assert.NotEmpty(among);
        Assert.All(among, row => Assert.Equal(limits, row.Value));
    }

    [GeneratedRegex(
        "<th scope=\"row\" class=\"number\">(?<blanks>\\d+)</th>(.(?!</tr>))*<td>(?<limits>[^<]*)</td></tr>",
        RegexOptions.ExplicitCapture | RegexOptions.Singleline,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex Row();
}
