using System.Globalization;
using System.Text;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Ticks;
using ReedShop.Shop;

namespace ReedShop.Reminders;

/// <summary>Tells the maker of each new order, once. Orders brought along at the start, which were told no chance, are known.</summary>
public sealed class NewOrders(
    ShopStore shops,
    OrderStore orders,
    MakersLetters letters,
    PublicAddress address,
    ShopClock clock
) : ITick
{
    /// <summary>A service that slept longer does not tell of orders the maker has long seen.</summary>
    private const int DaysTold = 2;

    public async Task Run(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return;
        }

        var since = clock.NowUtc.AddDays(-DaysTold);
        foreach (var order in (await orders.AcceptedSince(since, cancel)).Where(IsNew))
        {
            var subject = $"order {Words.Plain(order.Number)}";
            if (await letters.IsDue(LetterKind.NewOrder, subject, cancel))
            {
                await letters.Write(LetterKind.NewOrder, subject, shop, Title(order), Text(order), cancel);
            }
        }
    }

    private static bool IsNew(Order order) => order.FirstChance > 0 && order.Stage != OrderStage.AwaitingPayment;

    private static string Title(Order order) =>
        $"New order {Words.Plain(order.Number)}: {Words.Count(order.Lines.Sum(l => l.Quantity), "reed", "reeds")}, to ship by {Words.Day(order.ShipBy)}";

    private string Text(Order order)
    {
        var text = new StringBuilder($"Order {Words.Plain(order.Number)} of {order.BuyerName}:\n");
        foreach (var line in order.Lines.OrderBy(line => line.Position))
        {
            text.Append(CultureInfo.InvariantCulture, $"  {line.Quantity} of {line.Strength} ({line.Model})\n");
        }

        var voucher = order.Voucher is { } code ? $", with voucher {code}" : "";
        var price = $"{Words.Money(new Money(order.PriceMinor, order.Currency))}{voucher}";
        return text.Append(
                CultureInfo.InvariantCulture,
                $"\nPromised to ship by {Words.FullDay(order.ShipBy)}, kept {Words.Chance(order.Chance)}. {price}.\nHow it stands:\n{address.Of("/bench/orders")}\n"
            )
            .ToString();
    }
}
