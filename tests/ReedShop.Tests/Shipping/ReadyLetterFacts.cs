using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Orders;
using ReedShop.Platform.Storage;
using ReedShop.Tests.Reminders;

namespace ReedShop.Tests.Shipping;

/// <summary>The letter that reeds lie ready; that it comes at the end of the bench is seen in the whole journey.</summary>
public sealed class ReadyLetterFacts
{
    private const string Ready = "order-ready";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("de", "Ihre Blätter sind fertig", "Der Versand ist bis")]
    [InlineData("fr", "vos anches sont prêtes", "L’expédition est promise")]
    [InlineData("pt", "as suas palhetas estão prontas", "O envio é feito até")]
    [InlineData("en", "your reeds are ready", "They leave by")]
    public async Task It_is_written_once_in_the_language_of_the_order(string language, string title, string leaves)
    {
        await using var shop = await Ordered(language);
        await Change(shop, order => order.BegunOn = order.ShipBy.AddDays(-1));

        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => shop.Tick("ready-letters"))));
        await shop.Tick("ready-letters");

        var letter = Assert.Single(await MakersMail.Waiting(shop, Ready));
        Assert.Equal("ana@example.org", letter.To);
        Assert.StartsWith(language, letter.Language, StringComparison.Ordinal);
        Assert.Contains(title, letter.Title, StringComparison.Ordinal);
        Assert.Contains(leaves, letter.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task On_the_promised_day_it_leaves_with_the_next_parcel()
    {
        await using var shop = await Ordered("en");
        await Change(
            shop,
            order => (order.BegunOn, order.ShipBy) = (new DateOnly(2027, 2, 26), new DateOnly(2027, 3, 1))
        );

        await shop.Tick("ready-letters");

        var letter = Assert.Single(await MakersMail.Waiting(shop, Ready));
        Assert.Contains("They leave with the next parcel.", letter.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Reeds_from_the_drawer_were_ready_when_the_order_was_confirmed()
    {
        await using var shop = await Ordered("en");

        await shop.Tick("ready-letters");

        Assert.Empty(await MakersMail.Waiting(shop, Ready));
    }

    [Fact]
    public async Task Where_the_rest_is_to_be_paid_another_letter_says_it()
    {
        await using var shop = await Ordered("en");
        await Change(shop, order => order.BegunOn = order.ShipBy.AddDays(-1));
        await shop.Within(services =>
            services
                .GetRequiredService<ShopDb>()
                .Set<Order>()
                .ExecuteUpdateAsync(row => row.SetProperty(order => order.PaysBeforeShipping, true), Cancel)
        );

        await shop.Tick("ready-letters");
        Assert.Empty(await MakersMail.Waiting(shop, Ready));

        await shop.Tick("ask-for-balances");
        await Change(shop, order => order.PaidUtc = order.AcceptedUtc);
        await shop.Tick("ready-letters");

        Assert.Single(await MakersMail.Waiting(shop, "balance-wanted"));
        Assert.Empty(await MakersMail.Waiting(shop, Ready));
    }

    private static async Task<ShopHost> Ordered(string language)
    {
        var shop = await ExampleReeds.NewShop();
        await Watch.Promised.Stock(shop, 3.5, 9);
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 4)));
        var order = await shop.PostJson("/api/orders", Payments.PayingShop.Wish(quote, "ana@example.org", language));
        Assert.Equal("ready", order.GetProperty("status").GetString());
        return shop;
    }

    private static Task Change(ShopHost shop, Action<Order> change) =>
        shop.Within(async services =>
        {
            var db = services.GetRequiredService<ShopDb>();
            change(await db.Set<Order>().SingleAsync(Cancel));
            await db.SaveChangesAsync(Cancel);
        });
}
