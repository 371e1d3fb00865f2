using System.Net;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Platform;

/// <summary>What pages and scripts are refused alike is said on a page in the words of the page.</summary>
public sealed class PageWordsFacts
{
    private static readonly string[] NamesForScripts =
    [
        "POST",
        "GET /",
        "/api",
        "passed",
        "redo",
        "carried",
        "rackBlanks",
        "factsVersion",
        "JSON",
        "minor unit",
        "is missing or cannot be read",
        "\"monday\"",
    ];

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Counts_that_do_not_add_up_are_told_in_the_words_of_the_form()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await Start(shop, 10);
        var path = $"/bench/batches/{batch}";

        var page = await Refused(owner, path, $"{path}/steps/1", ("kept", "11"), ("again", "1"));

        Assert.Contains(
            "kept, again, left for another day and rejected of 0 or more that add up to 10",
            page,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_step_recorded_twice_says_how_it_is_mended_on_the_page()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var batch = await Start(shop, 10);
        await Record(shop, batch, 1, Kept(10));
        var path = $"/bench/batches/{batch}";

        var again = await Refused(owner, path, $"{path}/steps/1", ("kept", "9"), ("rejected-2", "1"));
        var ahead = await Refused(owner, path, $"{path}/steps/5", ("kept", "10"));

        Assert.Contains("“coarse flatten” was recorded with other counts.", again, StringComparison.Ordinal);
        Assert.Contains("undo the step on the page of its batch", again, StringComparison.Ordinal);
        Assert.Contains("first rack, the step it stands at", ahead, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/bench/week?from=soon")]
    [InlineData("/bench/today?date=tomorrow")]
    [InlineData("/bench/week?move=a&to=b")]
    public async Task An_address_that_makes_no_sense_is_told_without_its_names(string address)
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);

        var answer = await owner.Get(address);

        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("dates are written 2027-03-04", page, StringComparison.Ordinal);
        Assert.Contains("href=\"/bench/week\"", page, StringComparison.Ordinal);
        HasNoNamesForScripts(page);
    }

    [Theory]
    [InlineData("rackBlanks", "0", "1 to 10000 blanks")]
    [InlineData("confidence", "100", "50 to 99 in 100")]
    [InlineData("zone", "the harbour", "a time zone such as Europe/Lisbon")]
    [InlineData("currency", "euro", "the three capital letters of a currency in use, such as EUR")]
    public async Task Settings_are_refused_with_what_the_page_would_take(string field, string typed, string allowed)
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var page = await Refused(
            owner,
            "/bench/shop",
            "/bench/shop",
            [.. Shop.ExampleForm.With(("version", "1"), (field, typed))]
        );

        Assert.Contains($"Accepted: {allowed}", page, StringComparison.Ordinal);
    }

    private static async Task<string> Refused(
        Visitor owner,
        string page,
        string path,
        params (string Name, string Value)[] fields
    )
    {
        var answer = await owner.PostFrom(page, path, [("back", "batch"), .. fields]);
        Assert.InRange((int)answer.StatusCode, 400, 499);
        var text = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancel));
        HasNoNamesForScripts(text.Split("role=\"alert\"")[1].Split("</p>")[0].Split('>', 2)[1]);
        return text;
    }

    private static void HasNoNamesForScripts(string said) =>
        Assert.All(NamesForScripts, name => Assert.DoesNotContain(name, said, StringComparison.Ordinal));
}
