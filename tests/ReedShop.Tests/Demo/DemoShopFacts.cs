using System.Text.Json;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Demo;
using ReedShop.Platform;

namespace ReedShop.Tests.Demo;

/// <summary>One furnished shop for all facts: furnishing it takes the planner some seconds.</summary>
public sealed class DemoShopHost : IAsyncLifetime
{
    public ShopHost Shop { get; private set; } = null!;

    public async ValueTask InitializeAsync() => Shop = await ShopHost.Start(null, ("ReedShop:Demo", "true"));

    public ValueTask DisposeAsync() => Shop.DisposeAsync();
}

public sealed class DemoShopFacts(DemoShopHost host) : IClassFixture<DemoShopHost>
{
    private static readonly DateOnly Today = new(2027, 3, 1);

    private ShopHost Shop => host.Shop;

    [Fact]
    public async Task It_is_marked_as_invented()
    {
        var shop = await Shop.GetJson("/api/shop");

        Assert.Contains("demo", shop.GetProperty("name").GetString(), StringComparison.Ordinal);
        Assert.Equal("Europe/Lisbon", shop.GetProperty("zone").GetString());
        Assert.All(
            await Orders(),
            order =>
                Assert.EndsWith("@example.org", order.GetProperty("buyerEmail").GetString(), StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Thirty_orders_are_open_and_each_was_promised_like_any_other()
    {
        var orders = (await Orders()).Select(row => row.GetProperty("order")).ToArray();

        Assert.Equal(30, orders.Length);
        Assert.All(
            orders,
            order =>
            {
                Assert.Contains(order.GetProperty("status").GetString(), new[] { "ready", "accepted", "onBench" });
                Assert.True(Day(order, "shipBy") > Today);
                Assert.InRange(order.GetProperty("chance").GetDouble(), 0.9, 0.99);
            }
        );
        Assert.Contains(orders, order => order.GetProperty("status").GetString() == "accepted");
    }

    [Fact]
    public async Task Three_models_are_sold_and_made_from_two_lots_each()
    {
        var models = await Shop.GetJson("/api/models");
        var lots = await Shop.GetJson("/api/cane");

        Assert.Equal(3, models.GetArrayLength());
        Assert.All(
            lots.EnumerateArray().GroupBy(lot => lot.GetProperty("model").GetString()),
            ofModel => Assert.Equal(2, ofModel.Count())
        );
    }

    [Fact]
    public async Task Batches_are_half_way_and_others_are_planned()
    {
        var batches = (await Shop.GetJson("/api/batches?limit=200")).GetProperty("items").EnumerateArray().ToArray();

        Assert.Equal(4, batches.Count(batch => batch.GetProperty("stage").GetString() == "onBench"));
        Assert.Contains(batches, batch => batch.GetProperty("stage").GetString() == "planned");
    }

    [Fact]
    public async Task Nothing_is_planned_in_the_concert_week()
    {
        var week = await Shop.GetJson("/api/week?from=2027-03-15");
        var days = week.GetProperty("days").EnumerateArray().Take(6).ToArray();

        Assert.All(
            days,
            day =>
            {
                Assert.Equal("concert week", day.GetProperty("reason").GetString());
                Assert.Equal(0, day.GetProperty("sittings").GetArrayLength());
            }
        );
    }

    [Fact]
    public async Task The_past_eighteen_months_stand_behind_its_yields()
    {
        var yields = await Shop.GetJson("/api/yields?model=clarinet");

        var steps = yields[0].GetProperty("steps").EnumerateArray();
        Assert.Equal(DemoHistory.Batches / 2, steps.Max(step => step.GetProperty("batches").GetInt32()));
    }

    [Fact]
    public async Task Furnishing_it_again_adds_nothing()
    {
        var before = (await Orders()).Length;

        await Shop.Restart();

        Assert.Equal(before, (await Orders()).Length);
    }

    [Fact]
    public async Task Whoever_reads_the_console_signs_in_with_a_password_of_this_start()
    {
        var first = await Shop.Within(services => services.GetRequiredService<DemoShop>().NewPassword());
        var second = await Shop.Within(services => services.GetRequiredService<DemoShop>().NewPassword());

        await Shop.Within(async services =>
        {
            var users = services.GetRequiredService<UserManager<IdentityUser>>();
            var owner = (await users.FindByNameAsync("owner"))!;
            Assert.False(await users.CheckPasswordAsync(owner, first));
            Assert.True(await users.CheckPasswordAsync(owner, second));
        });
    }

    [Fact]
    public async Task A_shop_of_somebodys_own_is_never_furnished()
    {
        await using var real = await ShopHost.Start();
        await real.PutJson("/api/shop", ExampleShop.Settings);

        await Assert.ThrowsAsync<CannotStartException>(() =>
            real.Within(async services =>
            {
                await services.GetRequiredService<DemoShop>().Furnish(TestContext.Current.CancellationToken);
            })
        );
        Assert.Equal(0, (await real.GetJson("/api/models")).GetArrayLength());
    }

    [Fact]
    public async Task A_real_shop_starts_empty()
    {
        await using var real = await ShopHost.Start();

        Assert.Equal(0, (await real.GetJson("/api/models")).GetArrayLength());
    }

    private async Task<JsonElement[]> Orders() =>
        [.. (await Shop.GetJson("/api/orders?limit=100")).GetProperty("items").EnumerateArray()];

    private static DateOnly Day(JsonElement element, string name) =>
        DateOnly.Parse(element.GetProperty(name).GetString()!, System.Globalization.CultureInfo.InvariantCulture);
}
