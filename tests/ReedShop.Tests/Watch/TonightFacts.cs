using System.Net;
using static ReedShop.Tests.Watch.Promised;

namespace ReedShop.Tests.Watch;

public sealed class TonightFacts
{
    [Fact]
    public async Task Some_minutes_go_to_a_sitting_that_fits_them()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop, 3.5, 6);
        shop.Time.SetUtcNow(ShopHost.Monday.AddDays(14));
        await shop.Tick("plan-sweep");

        var tonight = await shop.GetJson("/api/tonight?minutes=120");

        var sitting = tonight.GetProperty("sittings")[0];
        Assert.InRange(sitting.GetProperty("minutes").GetInt32(), 1, 120);
        Assert.True(sitting.GetProperty("gain").GetDouble() >= 0);
        using var owner = await Visitor.Owner(shop);
        var page = await owner.Read("/bench/tonight?minutes=120");
        Assert.Contains(sitting.GetProperty("firstStep").GetString()!, page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Too_few_minutes_are_told_how_many_it_takes_and_none_are_refused()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop, 3.5, 6);
        shop.Time.SetUtcNow(ShopHost.Monday.AddDays(1));
        await shop.Tick("plan-sweep");

        var few = await shop.GetJson("/api/tonight?minutes=1");
        var none = await shop.Send(HttpMethod.Get, "/api/tonight?minutes=0");

        Assert.Empty(few.GetProperty("sittings").EnumerateArray());
        Assert.True(few.GetProperty("leastMinutes").GetInt32() > 1);
        await Refused(none, HttpStatusCode.UnprocessableEntity, "invalid-value");
        using var owner = await Visitor.Owner(shop);
        Assert.Contains(
            "whole minutes from 1 to 600",
            await owner.Read("/bench/tonight?minutes=an+hour"),
            StringComparison.Ordinal
        );
    }
}
