using System.Net;
using System.Text.Json;
using ReedShop.Tests.Checkout;

namespace ReedShop.Tests.Payments;

/// <summary>
/// An order that waits for its payment holds evenings at the bench as it holds reeds. The drawer is empty, and the rack has
/// room for one batch, so that whoever comes second must wait.
/// </summary>
public sealed class HeldEveningFacts
{
    private const int Reeds = 5;

    [Fact]
    public async Task An_unpaid_order_holds_evenings_until_it_expires_and_then_the_date_is_free_again()
    {
        await using var paying = await ToBeMade();
        var first = await ShipBy(paying);
        Assert.Empty(await Sittings(paying));

        var order = await paying.Order(Reeds);

        Assert.Equal("awaitingPayment", await paying.Status(order));
        Assert.Equal(first, ShipBy(order));
        Assert.NotEmpty(await Sittings(paying));
        Assert.True(string.CompareOrdinal(await ShipBy(paying), first) > 0);
        await paying.Tick(TimeSpan.FromMinutes(29));
        Assert.True(string.CompareOrdinal(await ShipBy(paying), first) > 0);

        await Expire(paying, order);

        Assert.Empty(await Sittings(paying));
        Assert.Equal(first, await ShipBy(paying));
    }

    [Fact]
    public async Task Paid_after_it_expired_it_has_batches_and_its_date_again_where_the_evenings_are_still_free()
    {
        await using var paying = await ToBeMade();
        var order = await paying.Order(Reeds);
        var held = (await Sittings(paying)).Length;
        await Expire(paying, order);
        Assert.Empty(await Sittings(paying));

        await PayLate(paying, order);

        Assert.Equal("accepted", await paying.Status(order));
        Assert.Equal(ShipBy(order), ShipBy(await paying.Read(order)));
        Assert.Equal(held, (await Sittings(paying)).Length);
        Assert.True(string.CompareOrdinal(await ShipBy(paying), ShipBy(order)) > 0);
        Assert.Contains("order-confirmed", await paying.Letters());
        await CardFacts.Balanced(paying, order, Reeds * PayingShop.PriceOfOne, refunded: 0);
        Assert.Empty(paying.Stripe.Refunds);
    }

    [Fact]
    public async Task Paid_after_it_expired_all_goes_back_where_others_have_the_evenings()
    {
        await using var paying = await ToBeMade();
        var order = await paying.Order(Reeds);
        await Expire(paying, order);
        var bens = await paying.PaidOrder(Reeds, "ben@example.org");
        Assert.Equal(ShipBy(order), ShipBy(bens));
        var before = await Sittings(paying);

        await PayLate(paying, order);

        Assert.Equal("expired", await paying.Status(order));
        Assert.Equal(["payment-wanted", "payment-expired", "paid-too-late", "refunded"], await paying.Letters());
        await CardFacts.Balanced(paying, order, Reeds * PayingShop.PriceOfOne, refunded: Reeds * PayingShop.PriceOfOne);
        Assert.Equal(Reeds * PayingShop.PriceOfOne, paying.Stripe.GivenBack);
        Assert.Equal("accepted", await paying.Status(bens));
        Assert.Equal(before, await Sittings(paying));
    }

    private static async Task<PayingShop> ToBeMade()
    {
        var paying = await PayingShop.Open(drawer: 0);
        await ExampleReeds.FillHistory(paying.Shop);
        await LastEveningFacts.LeaveRoomForOneBatch(paying.Shop);
        return paying;
    }

    /// <summary>When whoever asks now would have as much.</summary>
    private static async Task<string> ShipBy(PayingShop paying) =>
        ShipBy(await paying.Shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, Reeds))));

    /// <summary>Days as they are sent sort as text.</summary>
    private static string ShipBy(JsonElement told) => told.GetProperty("shipBy").GetString()!;

    private static async Task Expire(PayingShop paying, JsonElement order)
    {
        await paying.Tick(PaidWithin);
        Assert.Equal("expired", await paying.Status(order));
    }

    private static TimeSpan PaidWithin => TimeSpan.FromMinutes(32);

    /// <summary>The shop has given the session up, and Stripe says that it was paid.</summary>
    private static async Task PayLate(PayingShop paying, JsonElement order)
    {
        var session = PayingShop.SessionOf(order);
        paying.Stripe.PayAfterAll(session);
        var told = await paying.TellOfSession(session);
        Assert.Equal(HttpStatusCode.OK, told.StatusCode);
        await paying.Tick();
    }

    /// <summary>All that the plan holds, in order.</summary>
    private static async Task<string[]> Sittings(PayingShop paying)
    {
        var sittings = new List<string>();
        for (var week = new DateOnly(2027, 3, 1); week < new DateOnly(2027, 5, 1); week = week.AddDays(7))
        {
            var view = await paying.Shop.GetJson($"/api/week?from={week:yyyy-MM-dd}");
            sittings.AddRange(
                view.GetProperty("days")
                    .EnumerateArray()
                    .SelectMany(day => day.GetProperty("sittings").EnumerateArray())
                    .Select(sitting => $"{sitting.GetProperty("id")} {sitting.GetProperty("date")}")
            );
        }

        return [.. sittings];
    }
}
