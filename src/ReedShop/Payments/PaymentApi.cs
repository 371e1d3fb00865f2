using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Payments;

public static class PaymentApi
{
    public static void MapPayments(this IEndpointRouteBuilder routes)
    {
        routes
            .MapPost("/api/orders/{id}/paid", Paid)
            .WithTags("Payments")
            .RequireAuthorization(Access.OwnerToken)
            .WithSummary("Marks the invoice of an order as paid.");
        routes.MapPaymentPages();
    }

    private static async Task<Results<Ok<OrderView>, Refused>> Paid(
        string id,
        Invoices invoices,
        HttpContext http,
        CancellationToken cancel
    ) => (await invoices.MarkPaid(id, http.HonourVersion, cancel)).OkOrRefused();
}

/// <summary>Payment by invoice, marked by hand. Paying does not change what the planner reads.</summary>
public sealed class Invoices(OrderStore orders, JournalStore journal, ShopClock clock)
{
    public async Task<Result<OrderView>> MarkPaid(string id, VersionCheck check, CancellationToken cancel)
    {
        if (await orders.Find(id, cancel) is not { } order)
        {
            return OrderStore.Missing;
        }

        if (check(order.Version) is { } fault)
        {
            return fault;
        }

        if (order.Stage is OrderStage.Cancelled or OrderStage.Expired && order.Parcels.Count == 0)
        {
            return Refusal.Stage("A cancelled order is not paid.", "an order that is open or shipped");
        }

        if (order.PaidUtc is null)
        {
            order.PaidUtc = clock.NowUtc;
            order.Version++;
            journal.Write("owner", $"order {order.Number}", "marked as paid");
            await orders.Save(cancel);
        }

        return OrderView.Of(order);
    }
}
