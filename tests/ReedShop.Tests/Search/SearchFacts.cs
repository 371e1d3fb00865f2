using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Search;

public sealed class SearchFacts(FilledShop filled) : IClassFixture<FilledShop>
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("joao", "João Exemplo")]
    [InlineData("JOÃO", "João Exemplo")]
    [InlineData("exemplo jo", "João Exemplo")]
    [InlineData("jo@harbour", "João Exemplo")]
    [InlineData("Angstrom", "Åsa Ångström")]
    public async Task An_order_is_found_by_part_of_its_buyers_name_or_address(string q, string buyer)
    {
        var found = await Find(q);

        var order = Assert.Single(found.GetProperty("orders").GetProperty("items").EnumerateArray());
        Assert.Equal(buyer, order.GetProperty("buyerName").GetString());
        Assert.Equal("ready", order.GetProperty("status").GetString());
    }

    [Fact]
    public async Task A_batch_is_found_by_its_model_and_its_cane_lot()
    {
        Assert.NotEmpty(Batches(await Find("B-FLAT")));
        Assert.Equal(["1", "1a"], Batches(await Find("clarinet b")));
        Assert.Equal(["1", "1a"], Batches(await Find("#1")));
        Assert.Equal(["1a"], Batches(await Find("1A")));
        Assert.Empty(Batches(await Find("bassoon")));
    }

    [Theory]
    [InlineData("j")]
    [InlineData("   ")]
    [InlineData(
        "a name that is far longer than any name that a buyer could have had in a shop of one maker of reeds, a b c"
    )]
    public async Task What_cannot_be_searched_for_is_refused_with_what_can(string q)
    {
        var answer = await filled.Shop.Owner.GetAsync($"/api/search?q={Uri.EscapeDataString(q)}", Cancel);

        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Contains("cane lot", problem.GetProperty("allowed").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_page_shows_both_kinds_with_their_state_and_links()
    {
        var page = await Page("1");

        Assert.Contains("href=\"/bench/orders#order-1\"", page, StringComparison.Ordinal);
        Assert.Contains(">Batch 1</a>", page, StringComparison.Ordinal);
        Assert.Contains("stage-ready", page, StringComparison.Ordinal);
        Assert.Contains("batch-planned", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_number_that_only_one_thing_has_leads_straight_to_it()
    {
        var order = await filled.Owner.Get("/bench/search?q=24");
        var tray = await filled.Owner.Get("/bench/search?q=1a");

        Assert.Equal(
            (HttpStatusCode.SeeOther, "/bench/orders#order-24"),
            (order.StatusCode, order.Headers.Location?.ToString())
        );
        Assert.Contains("id=\"order-24\"", await filled.Owner.Read("/bench/orders"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, tray.StatusCode);
        Assert.Contains(
            "Batch 1a",
            await filled.Owner.Read(tray.Headers.Location!.ToString()),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("order 12")]
    [InlineData("Order #12")]
    public async Task An_order_is_found_by_its_word_and_number_and_no_batch_with_it(string typed)
    {
        var found = await Find(typed);

        Assert.Equal(1, found.GetProperty("orders").GetProperty("items").GetArrayLength());
        Assert.Empty(Batches(found));
    }

    [Theory]
    [InlineData("batch 1")]
    [InlineData("tray 1a")]
    public async Task A_batch_is_found_by_its_word_and_number_and_no_order_with_it(string typed)
    {
        var found = await Find(typed);

        Assert.Contains(typed.Split(' ')[1], Batches(found));
        Assert.Equal(0, found.GetProperty("orders").GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task Digits_are_a_number_and_no_part_of_an_address()
    {
        var found = await Find("12");

        var order = Assert.Single(found.GetProperty("orders").GetProperty("items").EnumerateArray());
        Assert.Equal("Many Buyers 12", order.GetProperty("buyerName").GetString());
    }

    [Fact]
    public async Task Nothing_found_and_nothing_asked_say_what_can_be_searched()
    {
        Assert.Contains(
            "Nothing is found for “bassoon”. Orders are found by their number",
            await Page("bassoon"),
            StringComparison.Ordinal
        );
        Assert.Contains("Orders are found by their number", await Page(""), StringComparison.Ordinal);
    }

    [Fact]
    public async Task More_than_are_shown_are_counted()
    {
        var found = await Find("many buyers");

        var orders = found.GetProperty("orders");
        Assert.Equal((20, 2), (orders.GetProperty("items").GetArrayLength(), orders.GetProperty("more").GetInt32()));
        Assert.Contains(
            "2 orders more: add a word to find fewer.",
            await Page("many buyers"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task The_field_is_on_the_owners_pages_and_not_on_the_buyers()
    {
        foreach (var address in new[] { "/bench/week", "/bench/orders", "/bench/batches" })
        {
            Assert.Contains("action=\"/bench/search\"", await filled.Owner.Read(address), StringComparison.Ordinal);
        }

        Assert.DoesNotContain("/bench/search", await filled.Owner.Read("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Only_the_owner_searches()
    {
        using var guest = new Visitor(filled.Shop);

        Assert.Equal(HttpStatusCode.Redirect, (await guest.Get("/bench/search?q=ana")).StatusCode);
        Assert.Equal(
            HttpStatusCode.Unauthorized,
            (await filled.Shop.Guest.GetAsync("/api/search?q=ana", Cancel)).StatusCode
        );
    }

    private Task<JsonElement> Find(string q) => filled.Shop.GetJson($"/api/search?q={Uri.EscapeDataString(q)}");

    private async Task<string> Page(string q) =>
        WebUtility.HtmlDecode(await filled.Owner.Read($"/bench/search?q={Uri.EscapeDataString(q)}"));

    private static string[] Batches(JsonElement found) =>
        [
            .. found
                .GetProperty("batches")
                .GetProperty("items")
                .EnumerateArray()
                .Select(batch => batch.GetProperty("number").GetString()!),
        ];
}
