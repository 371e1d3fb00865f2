using System.Globalization;
using System.Text;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace ReedShop.Payments;

/// <summary>How large letters stand, in points, and whether they are bold.</summary>
internal readonly record struct PdfStyle(double Size, bool IsBold = false)
{
    /// <summary>From one line to the next.</summary>
    public double Leading => Size * 1.35;
}

/// <summary>
/// Chooses for every letter of a paper the first font that has it, and measures, breaks and draws lines of them. Letters
/// are set one after another, so scripts that join their letters or run to the left cannot be written.
/// </summary>
internal sealed class PdfLetters
{
    private readonly Dictionary<Rune, PdfFont> fonts = [];
    private readonly Dictionary<(string File, double Size), XFont> sized = [];

    /// <summary>The library knows fonts by family; here a family is called by its file.</summary>
    static PdfLetters() => GlobalFontSettings.FontResolver = new FontFiles();

    public PdfLetters(IEnumerable<string> texts, IReadOnlyList<PdfFont> all)
    {
        var missing = texts.SelectMany(text => PdfText.Readable(text).EnumerateRunes()).ToHashSet();
        var never = missing.Where(PdfText.MustBeShaped).ToArray();
        missing.ExceptWith(never);
        foreach (var font in all.TakeWhile(_ => missing.Count > 0))
        {
            foreach (var letter in missing.Except(LackingIn(font, missing)).ToArray())
            {
                fonts[letter] = font;
                missing.Remove(letter);
            }
        }

        Lacking = string.Concat(never.Concat(missing));
    }

    /// <summary>The letters that no font has, or that cannot be set one after another; they must not be drawn.</summary>
    public string Lacking { get; }

    public double Width(string text, PdfStyle style) => Runs(text, style).Sum(run => Width(run.Text, run.Font));

    public void Draw(XGraphics page, string text, double x, double baseline, PdfStyle style)
    {
        foreach (var (run, font) in Runs(text, style))
        {
            page.DrawString(run, font, XBrushes.Black, x, baseline);
            x += Width(run, font);
        }
    }

    /// <summary>Breaks a text between words, and within a word where one alone is wider than a line.</summary>
    public IEnumerable<string> Lines(string text, double width, PdfStyle style)
    {
        var line = "";
        foreach (var word in PdfText.Readable(text).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && Width($"{line} {word}", style) > width)
            {
                yield return line;
                line = "";
            }

            line = line.Length > 0 ? $"{line} {word}" : word;
            while (Width(line, style) > width && Fitting(line, width, style) is var most && most < line.Length)
            {
                yield return line[..most];
                line = line[most..];
            }
        }

        yield return line;
    }

    /// <summary>Asks the library itself, by drawing them where nobody looks: glyph 0 of a font stands for all it lacks.</summary>
    private static HashSet<Rune> LackingIn(PdfFont font, IReadOnlyCollection<Rune> letters)
    {
        var lacking = new HashSet<Rune>();
        using var scratch = new PdfDocument();
        scratch.RenderEvents.RenderTextEvent += (_, drawn) =>
            lacking.UnionWith(
                drawn
                    .CodePointGlyphIndexPairs.Where(pair => pair.GlyphIndex == 0)
                    .Select(pair => new Rune(pair.CodePoint))
            );
        using var page = XGraphics.FromPdfPage(scratch.AddPage());
        foreach (var file in new[] { font.Plain, font.Bold })
        {
            page.DrawString(string.Concat(letters), Font(file, 1), XBrushes.Black, 0, 0);
        }

        return lacking;
    }

    private IEnumerable<(string Text, XFont Font)> Runs(string text, PdfStyle style)
    {
        var (run, of) = (new StringBuilder(), default(PdfFont));
        foreach (var letter in PdfText.Readable(text).EnumerateRunes())
        {
            if (of is not null && fonts[letter] != of)
            {
                yield return (run.ToString(), Sized(of, style));
                run.Clear();
            }

            of = fonts[letter];
            run.Append(letter);
        }

        if (of is not null)
        {
            yield return (run.ToString(), Sized(of, style));
        }
    }

    private XFont Sized(PdfFont font, PdfStyle style)
    {
        var key = (style.IsBold ? font.Bold : font.Plain, style.Size);
        return sized.TryGetValue(key, out var found) ? found : sized[key] = Font(key.Item1, style.Size);
    }

    /// <summary>One way of writing for all letters, so that each font is embedded once.</summary>
    private static XFont Font(string file, double size) =>
        new(file, size, XFontStyleEx.Regular, new XPdfFontOptions(PdfFontEncoding.Unicode));

    private static double Width(string text, XFont font) => Measure.MeasureString(text, font).Width;

    /// <summary>How much of a word fits into a line: at least one letter with its marks.</summary>
    private int Fitting(string line, double width, PdfStyle style)
    {
        var ends = StringInfo.ParseCombiningCharacters(line).Skip(1).Append(line.Length).ToArray();
        return ends.TakeWhile(end => Width(line[..end], style) <= width).LastOrDefault(ends[0]);
    }

    private static readonly XGraphics Measure = XGraphics.CreateMeasureContext(
        new XSize(1, 1),
        XGraphicsUnit.Point,
        XPageDirection.Downwards
    );

    private sealed class FontFiles : IFontResolver
    {
        public byte[] GetFont(string faceName) => File.ReadAllBytes(faceName);

        public FontResolverInfo ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(familyName);
    }
}
