using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace ReedShop.Payments;

/// <summary>Sheets of A4, filled from the top down; whatever does not fit goes on on the next.</summary>
internal sealed class PdfSheets : IDisposable
{
    /// <summary>Between the margins, in points.</summary>
    public const double Width = 595 - (2 * Margin);

    public const double RowGap = 4;

    /// <summary>20 mm.</summary>
    private const double Margin = 57;

    private const double Bottom = 842 - Margin - 24;

    private readonly PdfDocument document = new();
    private readonly PdfLetters letters;
    private XGraphics page;
    private double y;

    public PdfSheets(PdfLetters letters, string title, string language, DateOnly day)
    {
        this.letters = letters;
        document.Info.Title = title;
        document.Info.CreationDate = document.Info.ModificationDate = day.ToDateTime(
            TimeOnly.MinValue,
            DateTimeKind.Utc
        );
        document.Language = language;
        // The library ends the streams of pages too early where it packs them: readers mend it, checkers warn of it.
        document.Options.CompressContentStreams = false;
        document.ViewerPreferences.DisplayDocTitle = true;
        page = NewSheet();
    }

    public bool HasRoom(double height) => y + height <= Bottom;

    /// <param name="isNew">On a new sheet in any case.</param>
    public void Room(double height, bool isNew = false)
    {
        if (isNew || !HasRoom(height))
        {
            page.Dispose();
            page = NewSheet();
        }
    }

    public void Skip(double height) => y += height;

    public void Rule()
    {
        page.DrawLine(new XPen(XColors.Gray, .5), Margin, y, Margin + Width, y);
        Skip(RowGap);
    }

    /// <summary>Pieces of one line, each from a place on it or up to it.</summary>
    public void Line(IReadOnlyList<(string Text, double X, bool EndsThere)> pieces, PdfStyle style)
    {
        Room(style.Leading);
        foreach (var (text, x, endsThere) in pieces)
        {
            var left = Margin + x - (endsThere ? letters.Width(text, style) : 0);
            letters.Draw(page, text, left, y + style.Size, style);
        }

        Skip(style.Leading);
    }

    /// <summary>As many lines as it takes.</summary>
    public void Text(string text, PdfStyle style)
    {
        foreach (var line in LinesOf(text, style))
        {
            Line([(line, 0, false)], style);
        }
    }

    public double HeightOf(string text, PdfStyle style) => LinesOf(text, style).Count() * style.Leading;

    /// <summary>Writes a foot under every sheet, once it is known how many there are, and hands out the file.</summary>
    public byte[] Finish(PdfStyle style, Func<int, int, string> foot)
    {
        page.Dispose();
        for (var i = 0; i < document.PageCount; i++)
        {
            using var sheet = XGraphics.FromPdfPage(document.Pages[i], XGraphicsPdfPageOptions.Append);
            var text = foot(i + 1, document.PageCount);
            letters.Draw(sheet, text, Margin + Width - letters.Width(text, style), 842 - Margin, style);
        }

        PdfNames.TakeChanceOut(document);
        using var file = new MemoryStream();
        document.Save(file);
        return PdfNames.NamedByContent(file.ToArray());
    }

    public void Dispose() => document.Dispose();

    private IEnumerable<string> LinesOf(string text, PdfStyle style) =>
        text.ReplaceLineEndings("\n").Split('\n').SelectMany(part => letters.Lines(part, Width, style));

    private XGraphics NewSheet()
    {
        var sheet = document.AddPage();
        sheet.Size = PageSize.A4;
        y = Margin;
        return XGraphics.FromPdfPage(sheet);
    }
}
