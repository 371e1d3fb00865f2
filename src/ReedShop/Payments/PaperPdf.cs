using System.Globalization;
using ReedShop.Platform;
using static ReedShop.Payments.PaymentTexts;

namespace ReedShop.Payments;

/// <summary>Writes a paper as a PDF: sheets of A4 with text that can be searched and copied.</summary>
public sealed partial class PaperPdf(PdfFonts fonts, ILogger<PaperPdf> log)
{
    private const double Gap = 14;

    private static readonly PdfStyle Title = new(18, IsBold: true);
    private static readonly PdfStyle Plain = new(10);
    private static readonly PdfStyle Strong = new(10, IsBold: true);
    private static readonly PdfStyle Small = new(9);

    /// <summary>The library keeps the fonts of all documents in one place, and says nothing of two that use it at once.</summary>
    private static readonly Lock OneAtATime = new();

    /// <summary>The same file for the same paper; refused where letters of it cannot be written right.</summary>
    public Result<byte[]> Of(PaperSheet sheet, DateOnly issuedOn)
    {
        if (fonts.All.Count == 0)
        {
            LogNoFont(PdfFonts.Package, PdfOptions.FontSetting);
            return new Refusal(
                RefusalKind.Broken,
                Say["NoFont"],
                Allowed: Say["NoFont.instead", PdfFonts.Package, PdfOptions.FontSetting]
            );
        }

        lock (OneAtATime)
        {
            var letters = new PdfLetters(TextsOf(sheet), fonts.All);
            if (letters.Lacking is { Length: > 0 } lacking)
            {
                LogNoLetters(lacking.Length, PdfOptions.FontSetting);
                return new Refusal(
                    RefusalKind.Broken,
                    Say["NoLetters", lacking],
                    Allowed: Say["NoLetters.instead", PdfOptions.FontSetting]
                );
            }

            using var file = new PdfSheets(letters, sheet.Title, sheet.Language, issuedOn);
            Write(file, letters, sheet);
            return file.Finish(
                Small,
                (page, pages) =>
                    $"{sheet.Title} · {string.Format(CultureInfo.InvariantCulture, sheet.PageOf, page, pages)}"
            );
        }
    }

    private static void Write(PdfSheets file, PdfLetters letters, PaperSheet sheet)
    {
        file.Text(sheet.Shop, Plain);
        file.Skip(Gap * 2);
        foreach (var line in sheet.Buyer)
        {
            file.Text(line, Plain);
        }

        file.Skip(Gap * 2);
        file.Text(sheet.Title, Title);
        file.Skip(Gap / 2);
        var values = sheet.Facts.Max(fact => letters.Width(fact.Label, Plain)) + Gap;
        foreach (var (label, value) in sheet.Facts)
        {
            file.Line([(label, 0, false), (value, values, false)], Plain);
        }

        file.Skip(Gap);
        Table(file, letters, sheet);
    }

    /// <summary>
    /// The heading of the table stands on every sheet, with a row below it. What follows the last row, the total first,
    /// never leaves it.
    /// </summary>
    private static void Table(PdfSheets file, PdfLetters letters, PaperSheet sheet)
    {
        var columns = new PdfColumns(letters, sheet, Strong);
        string[] end = [.. sheet.Tax is { } tax ? [tax] : Array.Empty<string>(), sheet.Standing];
        var tail =
            PdfSheets.RowGap
            + columns.HeightOf(sheet.Total, Strong)
            + (Gap / 2)
            + end.Sum(text => file.HeightOf(text, Plain));
        for (var i = 0; i < sheet.Rows.Count; i++)
        {
            var row = columns.HeightOf(sheet.Rows[i], Plain) + (i == sheet.Rows.Count - 1 ? tail : 0);
            if (i == 0 || !file.HasRoom(row))
            {
                file.Room(columns.HeightOf(sheet.Head, Strong) + PdfSheets.RowGap + row, isNew: i > 0);
                columns.Draw(file, sheet.Head, Strong);
                file.Rule();
            }

            columns.Draw(file, sheet.Rows[i], Plain);
        }

        file.Rule();
        columns.Draw(file, sheet.Total, Strong);
        file.Skip(Gap / 2);
        foreach (var text in end)
        {
            file.Text(text, Plain);
        }

        if (sheet.Note is { } note)
        {
            file.Skip(Gap);
            file.Text(note, Small);
        }
    }

    private static IEnumerable<string> TextsOf(PaperSheet sheet) =>
        [
            sheet.Title,
            sheet.Shop,
            .. sheet.Buyer,
            .. sheet.Facts.SelectMany(fact => new[] { fact.Label, fact.Value }),
            .. sheet
                .Rows.Append(sheet.Head)
                .Append(sheet.Total)
                .SelectMany(row => new[] { row.What, row.HowMany, row.Amount }),
            sheet.Tax ?? "",
            sheet.Standing,
            .. (sheet.Note ?? "").ReplaceLineEndings("\n").Split('\n'),
            sheet.PageOf,
            " · 0123456789",
        ];

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "No PDF was written: no font was found. Install one (on Debian {Package}) or set {Setting}"
    )]
    private partial void LogNoFont(string package, string setting);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "No PDF was written: no font has {Count} of its letters, or they must be joined; its page names them. A font that has them is named in {Setting}"
    )]
    private partial void LogNoLetters(int count, string setting);
}
