using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Payments;

public static class PaymentPages
{
    private const string Orders = "/bench/orders";

    public static void MapPaymentPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/orders/{id}/paid", ComeBack).ExcludeFromDescription();
        routes.MapGet("/orders/{id}/invoice/{number:int}", ShowInvoice).ExcludeFromDescription();
        routes.MapGet("/orders/{id}/credit-note/{number:int}", ShowCreditNote).ExcludeFromDescription();
        routes
            .MapPost(Orders + "/{id}/paid", MarkPaid)
            .RequireAuthorization(Access.OwnerCookie)
            .ExcludeFromDescription();
    }

    /// <summary>
    /// Stripe sends the buyer back here. It is the one page that is read and may write: what it writes is what Stripe says
    /// anyway, and would stand there a minute later without it.
    /// </summary>
    private static async Task<IResult> ComeBack(string id, Settling settling, CancellationToken cancel)
    {
        await settling.SettleOrder(id, cancel);
        return Pages.Go($"/orders/{id}");
    }

    private static Task<IResult> ShowInvoice(string id, int number, BooksStore store, CancellationToken cancel) =>
        Show(id, PaperKind.Invoice, number, store, cancel);

    private static Task<IResult> ShowCreditNote(string id, int number, BooksStore store, CancellationToken cancel) =>
        Show(id, PaperKind.CreditNote, number, store, cancel);

    private static async Task<IResult> Show(
        string id,
        PaperKind kind,
        int number,
        BooksStore store,
        CancellationToken cancel
    ) =>
        await store.FindPaper(id, kind, number, cancel) is { } paper
            ? Pages.Show<PaperPage>(
                new
                {
                    Paper = paper,
                    Invoice = kind == PaperKind.CreditNote ? await store.InvoiceOf(paper, cancel) : null,
                }
            )
            : Pages.Refuse(new Refusal(RefusalKind.NotFound, PaymentTexts.Say["NoSuchPaper"]), $"/orders/{id}");

    private static async Task<IResult> MarkPaid(
        string id,
        IFormCollection _,
        OwnerMoney money,
        CancellationToken cancel
    )
    {
        var paid = await money.MarkPaid(id, VersionChecks.None, cancel);
        return paid.Refusal is { } refusal ? Pages.Refuse(refusal, Orders, Orders) : Pages.Go(Orders);
    }
}
