namespace ReedShop.Payments;

/// <summary>What was bought to the left, as wide as it may be; how many and how much to the right.</summary>
internal sealed class PdfColumns
{
    private const double Between = 16;

    private readonly PdfLetters letters;
    private readonly double howManyEnds;
    private readonly double whatWidth;

    public PdfColumns(PdfLetters letters, PaperSheet sheet, PdfStyle widest)
    {
        this.letters = letters;
        var rows = sheet.Rows.Append(sheet.Head).Append(sheet.Total).ToArray();
        howManyEnds = PdfSheets.Width - Between - rows.Max(row => letters.Width(row.Amount, widest));
        whatWidth = howManyEnds - Between - rows.Max(row => letters.Width(row.HowMany, widest));
    }

    public double HeightOf(PaperRow row, PdfStyle style) =>
        (letters.Lines(row.What, whatWidth, style).Count() * style.Leading) + PdfSheets.RowGap;

    public void Draw(PdfSheets file, PaperRow row, PdfStyle style)
    {
        var (howMany, amount) = (row.HowMany, row.Amount);
        foreach (var line in letters.Lines(row.What, whatWidth, style))
        {
            file.Line([(line, 0, false), (howMany, howManyEnds, true), (amount, PdfSheets.Width, true)], style);
            (howMany, amount) = ("", "");
        }

        file.Skip(PdfSheets.RowGap);
    }
}
