using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using static ReedShop.Tests.Watch.Promised;

namespace ReedShop.Tests.Quotes;

/// <summary>"I need it by ...", and orders that may leave in parts.</summary>
public sealed class NeedByFacts
{
    private static readonly DateOnly Today = DateOnly.FromDateTime(ShopHost.Monday.Date);

    [Fact]
    public async Task A_day_that_is_needed_comes_with_its_chance_and_the_last_day_to_order()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var soonest = ExampleMaker.Day(await Ask(shop, (3.5, 6)), "shipBy");
        var needed = soonest.AddDays(21);

        var quote = await Ask(shop, (3.5, 6), ("needBy", needed));

        var need = quote.GetProperty("needBy");
        var latest = ExampleMaker.Day(need, "latestOrder");
        Assert.InRange(latest, Today.AddDays(14), needed);
        Assert.True(Chance(need) >= Chance(quote));
        shop.Time.SetUtcNow(new DateTimeOffset(latest, new TimeOnly(9, 0), TimeSpan.Zero));
        var then = ExampleMaker.Day(await Ask(shop, (3.5, 6)), "shipBy");
        Assert.True(then <= needed, $"soonest {soonest}, needed {needed}, latest {latest}, then {then}");
    }

    [Fact]
    public async Task What_cannot_be_made_by_then_is_refused_with_what_can()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Stock(shop, 3.5, 2);
        var soonest = ExampleMaker.Day(await Ask(shop, (3.5, 6)), "shipBy");

        var tooSoon = await Post(shop, (3.5, 6), ("needBy", soonest.AddDays(-1)));
        var past = await Post(shop, (3.5, 6), ("needBy", Today));

        var problem = await Refused(tooSoon, HttpStatusCode.Conflict, "no-promise");
        Assert.Equal("needBy", problem.GetProperty("field").GetString());
        Assert.Contains(
            $"{soonest:yyyy-MM-dd} or later",
            problem.GetProperty("allowed").GetString(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "what lies in the drawer",
            problem.GetProperty("allowed").GetString(),
            StringComparison.Ordinal
        );
        await Refused(past, HttpStatusCode.UnprocessableEntity, "invalid-value");
    }

    [Fact]
    public async Task A_hard_date_stays_with_the_order()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var quote = await Ask(shop, (3.5, 6), ("needBy", Today.AddDays(90)));

        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(Id(quote)));

        Assert.Equal(Today.AddDays(90), ExampleMaker.Day(order, "needBy"));
    }

    [Fact]
    public async Task Where_parts_are_fine_each_parcel_has_its_own_day()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Stock(shop, 3.5, 2);

        var whole = await Ask(shop, (3.5, 6));
        var parts = await Ask(shop, (3.5, 6), ("partsAreFine", true));

        Assert.False(whole.TryGetProperty("parcels", out _));
        Assert.Contains(
            whole.GetProperty("sooner").EnumerateArray(),
            sooner => sooner.GetProperty("change").GetString()!.StartsWith("take two parcels", StringComparison.Ordinal)
        );
        var parcels = parts.GetProperty("parcels").EnumerateArray().ToArray();
        Assert.Equal(
            [2, 4],
            parcels.Select(parcel => parcel.GetProperty("lines")[0].GetProperty("quantity").GetInt32())
        );
        Assert.Equal(new DateOnly(2027, 3, 4), ExampleMaker.Day(parcels[0], "shipBy"));
        Assert.Equal(ExampleMaker.Day(parts, "shipBy"), ExampleMaker.Day(parcels[1], "shipBy"));
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(Id(parts)));
        Assert.True(order.GetProperty("partsAreFine").GetBoolean());
        using var owner = await Visitor.Owner(shop);
        Assert.Contains(
            "lies ready; the next ship day is Mon 1 March",
            await owner.Read("/bench/orders"),
            StringComparison.Ordinal
        );
    }

    private static async Task<JsonElement> Ask(
        ShopHost shop,
        (double Strength, int Quantity) line,
        params (string Name, object Value)[] more
    ) => await ShopHost.Read(await Post(shop, line, more));

    private static Task<HttpResponseMessage> Post(
        ShopHost shop,
        (double Strength, int Quantity) line,
        params (string Name, object Value)[] more
    )
    {
        var wish = JsonSerializer.SerializeToNode(ExampleReeds.Lines(line))!;
        foreach (var (name, value) in more)
        {
            wish[name] = JsonSerializer.SerializeToNode(value);
        }

        return shop.Send(HttpMethod.Post, "/api/quotes", wish);
    }
}
