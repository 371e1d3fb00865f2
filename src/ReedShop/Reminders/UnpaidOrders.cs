using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Ticks;
using ReedShop.Shop;

namespace ReedShop.Reminders;

/// <summary>Tells the maker, once, of an order that ended because its payment did not come in.</summary>
public sealed class UnpaidOrders(ShopStore shops, OrderStore orders, MakersLetters letters, ShopClock clock) : ITick
{
    private const int DaysTold = 2;

    public async Task Run(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return;
        }

        foreach (var order in await orders.ExpiredSince(clock.NowUtc.AddDays(-DaysTold), cancel))
        {
            var subject = $"order {Words.Plain(order.Number)}";
            if (await letters.IsDue(LetterKind.NotPaid, subject, cancel))
            {
                await letters.Write(LetterKind.NotPaid, subject, shop, Title(order), Text(order), cancel);
            }
        }
    }

    private static string Title(Order order) => $"Order {Words.Plain(order.Number)} was not paid in time";

    private static string Text(Order order) =>
        $"{order.BuyerName} ({order.BuyerEmail}) ordered {Words.Count(order.Lines.Sum(l => l.Quantity), "reed", "reeds")}, and "
        + "no payment came in. The order has ended, and its evenings are free again.\n";
}
