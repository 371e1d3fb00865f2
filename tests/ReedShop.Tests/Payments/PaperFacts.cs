using System.Net;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Payments;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Payments;

/// <summary>Invoices and credit notes in the language of their order. Expected texts are written by hand.</summary>
public sealed class PaperFacts
{
    [Theory]
    [InlineData(
        "de",
        "Rechnung 1",
        "Blatt 3½ (B-Klarinette)",
        "Montag, 1. März 2027",
        "7,00\u00A0€",
        "Darin Steuer, VAT 6,5 von 100: 0,43\u00A0€",
        "Bestellung storniert, Bestellung 1"
    )]
    [InlineData(
        "fr",
        "Facture 1",
        "Anche 3½ (Clarinette en si bémol)",
        "lundi 1 mars 2027",
        "7,00\u00A0€",
        "Dont taxe, VAT 6,5 pour 100 : 0,43\u00A0€",
        "Commande annulée, commande 1"
    )]
    [InlineData(
        "pt",
        "Fatura 1",
        "Palheta 3½ (Clarinete em si bemol)",
        "segunda-feira, 1 de março de 2027",
        "7,00\u00A0€",
        "Dos quais imposto, VAT 6,5 em 100: 0,43\u00A0€",
        "Encomenda cancelada, encomenda 1"
    )]
    [InlineData(
        "en-US",
        "Invoice 1",
        "Reed 3½ (B-flat clarinet)",
        "Monday, March 1, 2027",
        "€7.00",
        "Of which tax, VAT 6.5 in 100: €0.43",
        "Order cancelled, order 1"
    )]
    public async Task A_paper_is_in_the_language_of_its_order_whoever_reads_it(
        string language,
        string title,
        string line,
        string day,
        string amount,
        string tax,
        string credit
    )
    {
        await using var paying = await PayingShop.Open(payment: new { taxShare = 0.065, taxName = "VAT" });
        var order = await paying.PaidOrder(language: language);
        await paying.CancelAsBuyer(order);
        using var reader = new Visitor(paying.Shop);
        reader.Browser.DefaultRequestHeaders.TryAddWithoutValidation("Accept-Language", "en-GB");

        var invoice = await Paper(reader, $"/orders/{PayingShop.Id(order)}/invoice/1");
        var note = await Paper(reader, $"/orders/{PayingShop.Id(order)}/credit-note/1");

        Assert.All([title, line, day, amount, tax], said => Assert.Contains(said, invoice, StringComparison.Ordinal));
        Assert.Contains(credit, note, StringComparison.Ordinal);
        Assert.StartsWith($"{order.GetProperty("language").GetString()}\"", invoice, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_paper_says_is_kept_with_it_words_and_lines()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder(language: "de");

        var kept = await paying.Shop.Within(services =>
            services
                .GetRequiredService<BooksStore>()
                .FindPaper(PayingShop.Id(order), PaperKind.Invoice, 1, TestContext.Current.CancellationToken)
        );

        Assert.Equal("de-DE", kept!.Content.Language);
        Assert.Equal("Blatt 3½ (B-Klarinette)", Assert.Single(kept.Content.Lines).Text);
        Assert.Equal(Languages.In("de-DE", () => PaperWords.Of(PaperKind.Invoice)), kept.Content.Words);
        var other = kept.Content with
        {
            Words = kept.Content.Words with { Title = "Rechnung Nr. {0}", Total = "Gesamt" },
        };
        var sheet = PaperSheet.Of(PaperPdfFacts.With(kept, other), null, 0);
        Assert.Equal(("Rechnung Nr. 1", "Gesamt"), (sheet.Title, sheet.Total.What));
    }

    [Fact]
    public async Task Why_money_went_back_is_told_to_the_owner_in_English_whatever_the_buyer_speaks()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder(language: "de");
        using var buyer = new Visitor(paying.Shop);
        buyer.Browser.DefaultRequestHeaders.TryAddWithoutValidation("Accept-Language", "de-DE");
        var page = $"/orders/{PayingShop.Id(order)}";
        await buyer.PostFrom(page, $"{page}/cancel");
        await paying.Tick();
        using var owner = await Visitor.Owner(paying.Shop);

        Assert.Contains("Order cancelled", await owner.Read($"/bench{page}/money"), StringComparison.Ordinal);
        var journal = await paying.Shop.Within(services =>
            services.GetRequiredService<JournalStore>().Latest(null, 100, TestContext.Current.CancellationToken)
        );
        Assert.Contains(journal, entry => entry.Text == "refunded 7.00 EUR: Order cancelled");
    }

    /// <summary>From the language of the article on.</summary>
    private static async Task<string> Paper(Visitor reader, string address) =>
        WebUtility
            .HtmlDecode(await reader.Read(address))
            .Split("<article class=\"paper\" lang=\"")[1]
            .Split("</article>")[0];
}
