using System.Net.Mime;
using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Payments;

/// <summary>Invoices and credit notes, as pages and as files, for whoever has the link of their order.</summary>
internal static class PaperPages
{
    public static void MapPapers(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/orders/{id}/invoice/{number:int}", ShowInvoice).ExcludeFromDescription();
        routes.MapGet("/orders/{id}/credit-note/{number:int}", ShowCreditNote).ExcludeFromDescription();
        routes
            .MapGet("/orders/{id}/invoice/{number:int}.pdf", InvoiceFile)
            .RequireRateLimiting(Computing.Policy)
            .ExcludeFromDescription();
        routes
            .MapGet("/orders/{id}/credit-note/{number:int}.pdf", CreditNoteFile)
            .RequireRateLimiting(Computing.Policy)
            .ExcludeFromDescription();
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
                    Sheet = await SheetOf(paper, store, cancel),
                    paper.Content.ShopName,
                    Pdf = PaperView.PdfOf(PaperView.Address(paper)),
                    Order = $"/orders/{id}",
                }
            )
            : NoSuchPaper(id);

    private static Task<IResult> InvoiceFile(
        string id,
        int number,
        BooksStore store,
        PaperPdf pdf,
        CancellationToken cancel
    ) => Download(id, PaperKind.Invoice, number, store, pdf, cancel);

    private static Task<IResult> CreditNoteFile(
        string id,
        int number,
        BooksStore store,
        PaperPdf pdf,
        CancellationToken cancel
    ) => Download(id, PaperKind.CreditNote, number, store, pdf, cancel);

    private static async Task<IResult> Download(
        string id,
        PaperKind kind,
        int number,
        BooksStore store,
        PaperPdf pdf,
        CancellationToken cancel
    )
    {
        if (await store.FindPaper(id, kind, number, cancel) is not { } paper)
        {
            return NoSuchPaper(id);
        }

        var file = pdf.Of(await SheetOf(paper, store, cancel), paper.IssuedOn);
        return file.Refusal is { } refusal
            ? Pages.Refuse(refusal, PaperView.Address(paper))
            : TypedResults.File(file.Value, MediaTypeNames.Application.Pdf, $"{PaperView.NameOf(kind)}-{number}.pdf");
    }

    private static async Task<PaperSheet> SheetOf(Paper paper, BooksStore store, CancellationToken cancel) =>
        PaperSheet.Of(
            paper,
            paper.Kind == PaperKind.CreditNote ? await store.InvoiceOf(paper, cancel) : null,
            (await store.OwedOf([paper.OrderId], cancel)).GetValueOrDefault(paper.OrderId)
        );

    private static RazorComponentResult NoSuchPaper(string id) =>
        Pages.Refuse(new Refusal(RefusalKind.NotFound, PaymentTexts.Say["NoSuchPaper"]), $"/orders/{id}");
}
