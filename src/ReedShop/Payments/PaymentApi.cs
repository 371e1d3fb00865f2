using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Orders;
using ReedShop.Platform.Http;

namespace ReedShop.Payments;

public static class PaymentApi
{
    public static void MapPayments(this IEndpointRouteBuilder routes)
    {
        var orders = routes.MapGroup("/api/orders/{id}").WithTags("Payments").RequireAuthorization(Access.OwnerToken);
        orders.MapPost("paid", Paid).WithSummary("Marks the invoice of an order as paid.");
        orders.MapGet("money", Money).WithSummary("Payments, refunds, invoices and credit notes of an order.");
        orders.MapPost("invoice", WriteInvoice).WithSummary("Writes the invoice of an order before it is paid.");
        orders.MapPost("refunds", GiveBack).WithSummary("Gives a part or all of what was paid back to the buyer.");
        orders.MapPost("refunds/{refund}/again", Again).WithSummary("Tries a refund again that Stripe refused.");
        orders.MapPost("refunds/{refund}/paid-back", PaidBack).WithSummary("Marks a refund as paid back by hand.");
        routes.MapWebhooks();
        routes.MapPaymentPages();
    }

    private static async Task<Results<Ok<OrderView>, Refused>> Paid(
        string id,
        OwnerMoney money,
        HttpContext http,
        CancellationToken cancel
    ) => (await money.MarkPaid(id, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<MoneyView>, Refused>> Money(
        string id,
        OwnerMoney money,
        CancellationToken cancel
    ) => (await money.Look(id, cancel)).OkOrRefused();

    private static async Task<Results<Ok<MoneyView>, Refused>> WriteInvoice(
        string id,
        OwnerMoney money,
        CancellationToken cancel
    ) => (await money.WriteInvoice(id, cancel)).OkOrRefused();

    private static async Task<Results<Ok<MoneyView>, Refused>> GiveBack(
        string id,
        RefundWish wish,
        OwnerMoney money,
        CancellationToken cancel
    ) => (await money.GiveBack(id, wish, cancel)).OkOrRefused();

    private static async Task<Results<Ok<MoneyView>, Refused>> Again(
        string id,
        string refund,
        OwnerMoney money,
        CancellationToken cancel
    ) => (await money.TryAgain(id, refund, cancel)).OkOrRefused();

    private static async Task<Results<Ok<MoneyView>, Refused>> PaidBack(
        string id,
        string refund,
        OwnerMoney money,
        CancellationToken cancel
    ) => (await money.PaidBack(id, refund, cancel)).OkOrRefused();
}
