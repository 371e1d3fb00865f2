using System.Globalization;
using System.Text;
using ReedShop.Orders;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Watch;

/// <summary>Tells the maker, once for each promised day, that it is at risk and what would help. Buyers are told nothing.</summary>
public sealed class RiskAlerts(OutboxStore outbox, PublicAddress address) : IForecastFollower
{
    private const string Kind = "promise-at-risk";

    public async Task Follow(
        BenchFacts facts,
        ShopState state,
        IReadOnlyCollection<PromiseOutlook> drawn,
        CancellationToken cancel
    )
    {
        foreach (var outlook in drawn)
        {
            var order = facts.Orders.First(open => open.Id == outlook.Order);
            var subject = string.Create(
                CultureInfo.InvariantCulture,
                $"order {order.Number}, to ship by {order.ShipBy:yyyy-MM-dd}"
            );
            if (OutlookView.IsRisky(outlook.Chance, order, facts) && !await outbox.Has(Kind, subject, cancel))
            {
                var view = await Task.Run(() => WatchReader.Drawn(facts, state, order, cancel), cancel);
                outbox.Add(Kind, subject, facts.Shop.OwnerEmail, Title(order), Text(view, PageOf(order)));
                await outbox.TrySave(cancel);
            }
        }
    }

    private string PageOf(Order order) => address.Of(WatchPages.AddressOf(order.Id));

    private static string Title(Order order) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"Order {order.Number} may miss {order.ShipBy:yyyy-MM-dd}: what would help"
        );

    private static string Text(WatchView view, string page)
    {
        var (order, culture) = (view.Order.Order, CultureInfo.InvariantCulture);
        var text = new StringBuilder().Append(
            culture,
            $"Order {order.Number} of {view.Order.BuyerName} is promised to ship by {Words.FullDay(order.ShipBy)}.\n"
        );
        text.Append(culture, $"As the bench stands it leaves by then {Words.Chance(view.Chance)}");
        text.Append(order.Chance > 0 ? $"; {Words.Chance(order.Chance)} were told.\n" : ".\n");
        if (view.Causes.Count > 0)
        {
            text.Append(culture, $"When late, mostly for {LateWords.Of(view.Causes[0].Cause)}.\n");
        }

        if (order.NeedBy is { } needBy)
        {
            text.Append(culture, $"The buyer has no use for it after {Words.FullDay(needBy)}.\n");
        }

        text.Append(view.Rescues.Count > 0 ? "\nWhat would help:\n" : "\nNothing that was tried would help.\n");
        foreach (var rescue in view.Rescues)
        {
            text.Append(culture, $"  {Words.Chance(rescue.Chance)}: {rescue.Change}\n");
        }

        if (view.NewDate is { } date)
        {
            text.Append(
                culture,
                $"\nA new date would be {Words.FullDay(date.ShipBy)}, kept {Words.Chance(date.Chance)}.\n"
            );
        }

        return text.Append(culture, $"The buyer has been told nothing. Choose here:\n{page}\n").ToString();
    }
}
