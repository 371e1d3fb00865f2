using System.Net;

namespace ReedShop.Tests.Shop;

public sealed class ShopFormFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Costs_are_read_in_the_currency_typed_in_the_same_form()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var euros = await Save(owner, "1", "EUR", "0.80", "15", "10.5");
        Assert.Equal(HttpStatusCode.SeeOther, euros.StatusCode);
        Assert.Equal((80, 1500, 1050), await Stored(shop));
        var yen = await Save(owner, "2", "JPY", "120", "2500", "1600");
        Assert.Equal(HttpStatusCode.SeeOther, yen.StatusCode);
        Assert.Equal((120, 2500, 1600), await Stored(shop));

        var page = await owner.Read("/bench/shop");
        Assert.Contains("value=\"2500\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_cost_that_the_typed_currency_does_not_have_is_refused_and_the_old_costs_stay()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        var before = await Stored(shop);

        var answer = await Save(owner, "1", "JPY", "0.80", "2500", "1600");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Contains("“0.80” is not an amount.", page, StringComparison.Ordinal);
        Assert.Contains("an amount of JPY, such as 1500", page, StringComparison.Ordinal);
        Assert.Equal(before, await Stored(shop));
    }

    private static async Task<(int Blank, int BenchHour, int LateDay)> Stored(ShopHost shop)
    {
        var costs = (await shop.GetJson("/api/shop")).GetProperty("costs");
        return (
            costs.GetProperty("blank").GetInt32(),
            costs.GetProperty("benchHour").GetInt32(),
            costs.GetProperty("lateDay").GetInt32()
        );
    }

    private static Task<HttpResponseMessage> Save(
        Visitor owner,
        string version,
        string currency,
        string blank,
        string benchHour,
        string lateDay
    ) =>
        owner.Post(
            "/bench/shop",
            ExampleForm.With(
                ("version", version),
                ("currency", currency),
                ("blankCost", blank),
                ("benchHourCost", benchHour),
                ("lateDayCost", lateDay)
            )
        );
}
