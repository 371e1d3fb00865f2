using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.Options;
using ReedShop.Orders;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>The part of an order's own page that is about money.</summary>
public sealed class MoneyPanels(BooksStore store, OrderStore orders, ShopStore shops, IOptions<StripeOptions> options)
{
    public async Task<RenderFragment?> Of(OrderView view, CancellationToken cancel)
    {
        if (await orders.Find(view.Id, cancel) is not { } order)
        {
            return null;
        }

        var shop = await shops.Get(cancel);
        var books = await store.Open(order, shop, cancel);
        var session = books.Sessions.Find(row => !row.IsOver);
        var kept = PayAmounts.KeptWhenCancelled(order, shop.Payment.KeptShare, byBuyer: true);
        return books.Papers.Count == 0 && session is null
            ? null
            : builder =>
            {
                builder.OpenComponent<MoneyPanel>(0);
                builder.AddComponentParameter(1, nameof(MoneyPanel.Books), books);
                builder.AddComponentParameter(2, nameof(MoneyPanel.Session), session);
                builder.AddComponentParameter(3, nameof(MoneyPanel.IsTest), options.Value.IsTest);
                builder.AddComponentParameter(4, nameof(MoneyPanel.KeptIfCancelled), kept);
                builder.AddComponentParameter(5, nameof(MoneyPanel.Zone), shop.Zone);
                builder.CloseComponent();
            };
    }
}
