using System.Net;

namespace ReedShop.Tests.Shop;

public sealed class HelperSettingsFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_shop_has_no_helper_unless_it_names_one()
    {
        await using var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.Settings);

        Assert.Empty((await shop.GetJson("/api/shop")).GetProperty("helpers").EnumerateArray());
    }

    [Fact]
    public async Task Helpers_come_back_in_their_order_with_hours_and_other_days_of_their_own()
    {
        await using var shop = await ShopHost.Start();

        await shop.PutJson("/api/shop", ExampleShop.With(ExampleShop.Helper(" Ana "), ExampleShop.Helper("Rui")));

        var helpers = (await shop.GetJson("/api/shop")).GetProperty("helpers");
        Assert.Equal(["Ana", "Rui"], helpers.EnumerateArray().Select(helper => helper.GetProperty("name").GetString()));
        Assert.Equal("17:00", helpers[0].GetProperty("hours").GetProperty("monday")[0].GetProperty("from").GetString());
        Assert.Equal("exam", helpers[1].GetProperty("otherDays")[0].GetProperty("reason").GetString());
    }

    [Fact]
    public async Task Two_helpers_of_one_name_are_refused() =>
        await Refused("another name for each", ExampleShop.Helper("Ana"), ExampleShop.Helper("ana "));

    [Fact]
    public async Task A_helper_without_a_name_is_refused() =>
        await Refused("a name of 1 to 60 characters for each", ExampleShop.Helper(" "));

    [Fact]
    public async Task A_fourth_helper_is_refused() =>
        await Refused(
            "at most 3",
            ExampleShop.Helper("Ana"),
            ExampleShop.Helper("Rui"),
            ExampleShop.Helper("Eva"),
            ExampleShop.Helper("Gil")
        );

    [Fact]
    public async Task Hours_of_a_helper_that_end_before_they_start_are_refused() =>
        await Refused(
            "stretches that end after they start and follow one another",
            ExampleShop.Helper("Ana", from: "19:00", to: "17:00")
        );

    [Fact]
    public async Task A_helper_is_added_on_the_settings_page_changed_and_leaves()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await shop.PutJson("/api/shop", ExampleShop.Settings, "\"1\"");

        await Save(("version", "2"), ("helper1", "Ana"), ("helper1-Monday", "17:00-19:00"));
        await Save(("version", "3"), ("helper1", "Ana"), ("helper1-Monday", "18:00-19:00"), ("helper2", "Rui"));
        Assert.Contains("value=\"18:00-19:00\"", await owner.Read("/bench/shop"), StringComparison.Ordinal);
        await Save(("version", "4"), ("helper1", "Ana"), ("helper1-leaves", "on"), ("helper2", "Rui"));

        var helper = Assert.Single((await shop.GetJson("/api/shop")).GetProperty("helpers").EnumerateArray());
        Assert.Equal("Rui", helper.GetProperty("name").GetString());

        async Task Save(params (string Name, string Value)[] fields)
        {
            var saved = await owner.Post("/bench/shop", ExampleForm.With(fields));
            Assert.Equal(HttpStatusCode.SeeOther, saved.StatusCode);
        }
    }

    [Fact]
    public async Task A_helper_typed_with_hours_and_no_name_is_shown_as_typed_with_the_refusal()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var answer = await owner.Post(
            "/bench/shop",
            ExampleForm.With(("version", "1"), ("helper1-Friday", "17:00-18:00"))
        );

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.Contains("value=\"17:00-18:00\"", page, StringComparison.Ordinal);
        Assert.Contains("The helper has no name.", page, StringComparison.Ordinal);
    }

    private static async Task Refused(string allowed, params object[] helpers)
    {
        await using var shop = await ShopHost.Start();
        var answer = await shop.Send(HttpMethod.Put, "/api/shop", ExampleShop.With(helpers));
        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("helpers", problem.GetProperty("field").GetString());
        Assert.Equal(allowed, problem.GetProperty("allowed").GetString());
    }
}
