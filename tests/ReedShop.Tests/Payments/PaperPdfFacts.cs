using System.Globalization;
using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using ReedShop.Payments;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace ReedShop.Tests.Payments;

/// <summary>Papers as PDF, read back by another library than the one that writes them.</summary>
public sealed class PaperPdfFacts
{
    private static readonly PdfFonts Fonts = PdfFonts.Of(own: null);
    private static readonly DateOnly Day = new(2027, 3, 1);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Buyer_and_owner_get_the_paper_as_a_file_that_says_what_the_page_says()
    {
        await using var paying = await PayingShop.Open(
            payment: new
            {
                paperNote = "Tax number PT 0",
                taxShare = 0.06,
                taxName = "VAT",
            }
        );
        var order = await paying.PaidOrder(language: "de");
        await paying.CancelAsBuyer(order);
        var page = $"/orders/{PayingShop.Id(order)}";
        using var buyer = new Visitor(paying.Shop);
        using var owner = await Visitor.Owner(paying.Shop);

        Assert.Contains($"{page}/invoice/1.pdf", await buyer.Read(page), StringComparison.Ordinal);
        Assert.Contains($"{page}/invoice/1.pdf", await buyer.Read($"{page}/invoice/1"), StringComparison.Ordinal);
        Assert.Contains($"{page}/credit-note/1.pdf", await owner.Read($"/bench{page}/money"), StringComparison.Ordinal);
        Assert.Contains($"{page}/credit-note/1.pdf", await owner.Read("/bench/money"), StringComparison.Ordinal);
        using var invoice = await Fetched(buyer, $"{page}/invoice/1.pdf", "invoice-1.pdf");
        var text = TextOf(invoice);
        Assert.All(
            [
                "Harbour reeds",
                "Ana Example",
                "1000-001 Harbour",
                "Rechnung 1",
                "Montag, 1. März 2027",
                "Blatt 3½ (B-Klarinette)",
                "7,00 €",
                "Darin Steuer, VAT 6 von 100: 0,40 €",
                "Dies ist bezahlt.",
                "Tax number PT 0",
                "Rechnung 1 · Seite 1 von 1",
            ],
            said => Assert.Contains(said, text, StringComparison.Ordinal)
        );
        using var note = await Fetched(owner, $"{page}/credit-note/1.pdf", "credit-note-1.pdf");
        Assert.Contains("Gutschrift 1", TextOf(note), StringComparison.Ordinal);
        Assert.Contains("Bestellung storniert, Bestellung 1", TextOf(note), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await buyer.Get($"{page}/invoice/2.pdf")).StatusCode);
        var other = await paying.PaidOrder(email: "ben@example.org");
        Assert.Equal(
            HttpStatusCode.NotFound,
            (await buyer.Get($"/orders/{PayingShop.Id(other)}/invoice/1.pdf")).StatusCode
        );
    }

    [Fact]
    public void Title_language_and_day_of_issue_are_said_in_the_file()
    {
        using var file = Read(Sheet(1));

        Assert.Equal("Rechnung 12", file.Information.Title);
        Assert.StartsWith("D:20270301000000", file.Information.CreationDate, StringComparison.Ordinal);
        Assert.Equal("(de-DE)", file.Structure.Catalog.CatalogDictionary.Data["Lang"].ToString());
        Assert.Equal((595, 842), (file.GetPage(1).Width, file.GetPage(1).Height));
    }

    // Names as people of these countries write them: invented, after common given names and surnames.
    [Theory]
    [InlineData("Łukasz Żółć-Wąsik", "ul. Źródlana 5")]
    [InlineData("Čeněk Dvořák Šťastný", "Příčná 3, Říčany")]
    [InlineData("Αλέξανδρος Παπαδόπουλος", "Οδός Ύδρας 7")]
    [InlineData("Димитър Щерев", "ул. Цар Иван Шишман 4")]
    [InlineData("Євген Ґалаґан", "вул. Їжакевича 1")]
    [InlineData("Þórður Ægisson", "Ölfusá 9")]
    [InlineData("İpek Şahingöz", "Iğdır Çıkmazı 2")]
    [InlineData("Nguyễn Thị Hạnh", "Đường Lê Lợi 8")]
    [InlineData("Gheorghe Țurcanu", "Strada Șoimilor 6")]
    [InlineData("O’Brien & Søn", "“Harbour” № 5 — 2º esq.")]
    public void Whatever_letters_a_buyer_types_come_out_right(string name, string street)
    {
        using var file = Read(Sheet(1) with { Buyer = [name, street] });

        var text = TextOf(file);
        Assert.Contains(name, text, StringComparison.Ordinal);
        Assert.Contains(street, text, StringComparison.Ordinal);
    }

    /// <summary>The same letter typed as one sign or as two.</summary>
    [Fact]
    public void Letters_typed_with_their_marks_apart_are_put_together()
    {
        using var file = Read(Sheet(1) with { Buyer = ["Cene\u030Ck Z\u0307o\u0301\u0142c\u0301\u200B"] });

        Assert.Contains("Ceněk Żółć", TextOf(file), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_line_is_there_and_the_lines_add_up_to_the_total()
    {
        const int lines = 120;
        var paper = Paper([
            .. Enumerable.Range(1, lines).Select(i => new PaperLine($"Blatt Nummer {i}.", i, 100 * i + 7)),
        ]);
        using var file = Read(PaperSheet.Of(paper, null, 0));

        var rows = file.GetPages().SelectMany(Rows).ToArray();
        var items = rows.Where(row => row.StartsWith("Blatt Nummer", StringComparison.Ordinal)).ToArray();
        Assert.Equal(lines, items.Length);
        Assert.Equal(paper.AmountMinor, items.Sum(Minor));
        Assert.Equal(
            paper.AmountMinor,
            Minor(Assert.Single(rows, row => row.StartsWith("Summe", StringComparison.Ordinal)))
        );
        Assert.True(file.NumberOfPages > 2, "all of it stands on few pages");
        Assert.All(
            file.GetPages(),
            page =>
            {
                Assert.Contains(Rows(page), row => row.StartsWith("Was Menge Betrag", StringComparison.Ordinal));
                Assert.Contains(
                    $"Rechnung 12 · Seite {page.Number} von {file.NumberOfPages}",
                    Rows(page)[^1],
                    StringComparison.Ordinal
                );
            }
        );
    }

    [Fact]
    public void The_total_never_stands_on_a_page_without_a_line()
    {
        for (var lines = 1; lines <= 80; lines++)
        {
            using var file = Read(Sheet(lines));
            var rows = file.GetPages().Select(Rows).Single(page => page.Any(IsTotal));

            Assert.True(rows.Any(row => row.StartsWith("Blatt", StringComparison.Ordinal)), $"alone after {lines}");
            Assert.Contains("Dies ist noch zu zahlen.", rows);
        }

        static bool IsTotal(string row) => row.StartsWith("Summe", StringComparison.Ordinal);
    }

    [Fact]
    public void Long_names_and_notes_are_broken_into_lines_within_the_margins()
    {
        const double margin = 56;
        var endless = string.Concat(Enumerable.Repeat("Wolfeschlegelsteinhausen", 9));
        var wordy = string.Join(' ', Enumerable.Repeat("Verein der Freunde des Holzblasens", 12));
        using var file = Read(
            Sheet(1) with
            {
                Buyer = [endless, wordy],
                Rows = [new PaperRow($"{wordy} {endless}", "10.000", "1.000.000.000,00\u00A0KWD")],
                Note = string.Join('\n', Enumerable.Repeat(wordy, 30)),
            }
        );

        Assert.True(file.NumberOfPages > 1);
        Assert.All(
            file.GetPages().SelectMany(page => page.Letters),
            letter =>
            {
                Assert.InRange(letter.BoundingBox.Left, margin, 595 - margin);
                Assert.InRange(letter.BoundingBox.Right, margin, 595 - margin);
                Assert.InRange(letter.BoundingBox.Bottom, 50, 842 - margin);
            }
        );
        var letters = string.Concat(file.GetPages().SelectMany(page => page.Letters).Select(letter => letter.Value));
        Assert.Contains(endless, letters, StringComparison.Ordinal);
        Assert.Equal(32 * 12, letters.Split("Holzblasens").Length - 1);
    }

    [Fact]
    public async Task The_same_paper_is_the_same_file_byte_for_byte()
    {
        var first = Written(Sheet(60));
        var again = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => Written(Sheet(60)), Cancel)));

        Assert.All(again, file => Assert.Equal(first, file));
        Assert.NotEqual(first, Written(Sheet(61)));
    }

    [Fact]
    public async Task Without_a_font_it_is_said_what_to_install_and_the_page_still_prints()
    {
        await using var paying = await PayingShop.Open(configure: services => services.AddSingleton(new PdfFonts([])));
        var page = $"/orders/{PayingShop.Id(await paying.PaidOrder())}/invoice/1";
        using var buyer = new Visitor(paying.Shop);

        var refused = await buyer.Get($"{page}.pdf");

        Assert.Equal(HttpStatusCode.InternalServerError, refused.StatusCode);
        var said = await refused.Content.ReadAsStringAsync(Cancel);
        Assert.Contains("fonts-dejavu-core", said, StringComparison.Ordinal);
        Assert.Contains("ReedShop__Pdf__Font", said, StringComparison.Ordinal);
        Assert.Contains($"href=\"{page}\"", said, StringComparison.Ordinal);
        Assert.Contains("Ana Example", await buyer.Read(page), StringComparison.Ordinal);
    }

    // Hebrew and Arabic run to the left and join, Devanagari is shaped; no font has letters of the private use area.
    [Theory]
    [InlineData("דוד", "דו")]
    [InlineData("علي", "علي")]
    [InlineData("देव", "देव")]
    [InlineData("Ana \uE123", "\uE123")]
    [InlineData("Ana 𝄢", "𝄢")]
    public void Letters_that_would_come_out_wrong_are_refused_and_named(string name, string named)
    {
        var refused = new PaperPdf(Fonts, NullLogger<PaperPdf>.Instance).Of(Sheet(1) with { Buyer = [name] }, Day);

        Assert.Contains($"“{named}”", refused.Refusal!.Detail, StringComparison.Ordinal);
        Assert.Contains("ReedShop__Pdf__Font", refused.Refusal.Allowed!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_font_of_ones_own_is_taken_first()
    {
        var own = Fonts.All[0].Bold;
        await using var paying = await PayingShop.Open(more: ("ReedShop:Pdf:Font", own));
        using var buyer = new Visitor(paying.Shop);

        using var file = await Fetched(
            buyer,
            $"/orders/{PayingShop.Id(await paying.PaidOrder())}/invoice/1.pdf",
            "invoice-1.pdf"
        );

        Assert.All(
            file.GetPage(1).Letters,
            letter => Assert.Contains("Bold", letter.FontName!, StringComparison.Ordinal)
        );
        Assert.Contains("Ana Example", TextOf(file), StringComparison.Ordinal);
    }

    /// <summary>The same paper with other words.</summary>
    public static Paper With(Paper paper, PaperContent content) =>
        new()
        {
            Id = paper.Id,
            Kind = paper.Kind,
            Number = paper.Number,
            OrderId = paper.OrderId,
            OrderNumber = paper.OrderNumber,
            AmountMinor = content.Lines.Sum(line => line.AmountMinor),
            Currency = paper.Currency,
            IssuedOn = paper.IssuedOn,
            PaymentId = paper.PaymentId,
            Content = content,
        };

    /// <summary>An open German invoice of so many reeds.</summary>
    private static PaperSheet Sheet(int lines) =>
        PaperSheet.Of(Paper([.. Enumerable.Range(1, lines).Select(i => new PaperLine($"Blatt {i}", 1, 350))]), null, 1);

    private static Paper Paper(IReadOnlyList<PaperLine> lines)
    {
        var empty = new Paper
        {
            Id = "paper",
            Kind = PaperKind.Invoice,
            Number = 12,
            OrderId = "order",
            OrderNumber = 9,
            AmountMinor = 0,
            Currency = "EUR",
            IssuedOn = Day,
            PaymentId = null,
            Content = new PaperContent(
                "de-DE",
                ReedShop.Platform.Layout.Languages.In("de-DE", () => PaperWords.Of(PaperKind.Invoice)),
                "Harbour reeds",
                "maker@example.org",
                "Ana Example",
                ["1 Quay", "1000-001 Harbour"],
                lines
            ),
        };
        return With(empty, empty.Content);
    }

    private static byte[] Written(PaperSheet sheet) =>
        new PaperPdf(Fonts, NullLogger<PaperPdf>.Instance).Of(sheet, Day).Value;

    private static PdfDocument Read(PaperSheet sheet) => PdfDocument.Open(Written(sheet));

    private static async Task<PdfDocument> Fetched(Visitor visitor, string address, string name)
    {
        var answer = await visitor.Get(address);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
        Assert.Equal(name, answer.Content.Headers.ContentDisposition.FileName);
        var file = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync(Cancel));
        Assert.Equal(1, file.NumberOfPages);
        return file;
    }

    private static string TextOf(PdfDocument file) =>
        string.Join('\n', file.GetPages().Select(page => ContentOrderTextExtractor.GetText(page)))
            .Replace('\u00A0', ' ');

    /// <summary>What stands on one height, from left to right, from the top down.</summary>
    private static string[] Rows(Page page) =>
        [
            .. page.GetWords()
                .GroupBy(word => Math.Round(word.Letters[0].StartBaseLine.Y))
                .OrderByDescending(row => row.Key)
                .Select(row => string.Join(' ', row.OrderBy(word => word.BoundingBox.Left).Select(word => word.Text))),
        ];

    /// <summary>The amount at the end of a row, such as "1.207,00 €".</summary>
    private static long Minor(string row) =>
        long.Parse(
            string.Concat(row.TrimEnd('€', '\u00A0', ' ').Split(' ')[^1].Where(char.IsAsciiDigit)),
            CultureInfo.InvariantCulture
        );
}
