using System.Globalization;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using static ReedShop.Payments.PaymentTexts;

namespace ReedShop.Payments;

/// <summary>One row of a paper's table.</summary>
public sealed record PaperRow(string What, string HowMany, string Amount);

/// <summary>
/// Everything that stands on a paper, said in its language. The page and the PDF both show this and reckon nothing.
/// </summary>
/// <param name="Facts">Such as the day it was issued on, each with its label.</param>
/// <param name="Standing">How it stands today; all else is as it was written.</param>
/// <param name="PageOf">With places for the number of a page and of all pages.</param>
public sealed record PaperSheet(
    string Language,
    string Title,
    string Shop,
    IReadOnlyList<string> Buyer,
    IReadOnlyList<(string Label, string Value)> Facts,
    PaperRow Head,
    IReadOnlyList<PaperRow> Rows,
    PaperRow Total,
    string? Tax,
    string Standing,
    string? Note,
    string PageOf
)
{
    /// <param name="invoice">The invoice a credit note takes from.</param>
    /// <param name="owed">What of its order is invoiced and not paid.</param>
    public static PaperSheet Of(Paper paper, int? invoice, long owed) =>
        Languages.In(paper.Content.Language, () => Said(paper, paper.Content, paper.Content.Words, invoice, owed));

    private static PaperSheet Said(Paper paper, PaperContent content, PaperWords words, int? invoice, long owed) =>
        new(
            content.Language,
            Filled(words.Title, paper.Number),
            $"{content.ShopName}, {content.ShopEmail}",
            [content.BuyerName, .. content.BuyerAddress],
            [
                (words.IssuedOn, Words.FullDay(paper.IssuedOn)),
                (words.ForOrder, Words.Plain(paper.OrderNumber)),
                .. invoice is { } number ? [(words.ToInvoice, Words.Plain(number))] : Array.Empty<(string, string)>(),
            ],
            new PaperRow(words.What, words.HowMany, words.Amount),
            [
                .. content.Lines.Select(line => new PaperRow(
                    line.Text,
                    Words.Number(line.Quantity),
                    Amount(line.AmountMinor, paper)
                )),
            ],
            new PaperRow(words.Total, "", Amount(paper.AmountMinor, paper)),
            content.Tax is { } tax
                ? Filled(words.OfWhichTax, tax.Name, Words.Decimal(tax.Share * 100), Amount(tax.AmountMinor, paper))
                : null,
            Say[StandingOf(paper, owed)],
            content.Note,
            Say["PageOf"]
        );

    private static string StandingOf(Paper paper, long owed) =>
        (paper.Kind, paper.RefundId, paper.PaymentId) switch
        {
            (PaperKind.Invoice, _, null) => paper.IsOpen(owed) ? "ToBePaid" : "LetGo",
            (PaperKind.Invoice, _, _) => "IsPaid",
            (_, null, _) => "LetGo",
            _ => paper.IsGoodwill ? "WentBackGoodwill" : "WentBackAll",
        };

    private static string Amount(long minor, Paper paper) => Words.Money(new Money(minor, paper.Currency));

    private static string Filled(string words, params object[] parts) =>
        string.Format(CultureInfo.InvariantCulture, words, parts);
}
