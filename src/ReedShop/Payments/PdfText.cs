using System.Globalization;
using System.Text;

namespace ReedShop.Payments;

/// <summary>What of a text can be set in a PDF, letter after letter.</summary>
internal static class PdfText
{
    /// <summary>
    /// As it is drawn: composed, without marks that have no shape, and with one kind of space that breaks and one that
    /// does not, because fonts lack the rarer ones (French figures are grouped by a narrow one).
    /// </summary>
    public static string Readable(string text)
    {
        var read = new StringBuilder();
        foreach (var rune in text.Normalize(NormalizationForm.FormC).EnumerateRunes())
        {
            read.Append(
                Rune.GetUnicodeCategory(rune) switch
                {
                    _ when rune.Value is ' ' or '\t' => " ",
                    UnicodeCategory.SpaceSeparator => "\u00A0",
                    UnicodeCategory.Control or UnicodeCategory.Format => "",
                    _ => rune.ToString(),
                }
            );
        }

        return read.ToString();
    }

    /// <summary>
    /// Whether a letter takes its shape or place from its neighbours, so that it would come out wrong when set by itself.
    /// By blocks of the Unicode standard: Hebrew to Myanmar, jamo, Tagalog to Mongolian, Limbu to Vedic, Syloti Nagri to
    /// Meetei Mayek, the forms of Hebrew and Arabic. Beyond the first plane the library writes letters that cannot be
    /// searched for or copied.
    /// </summary>
    public static bool MustBeShaped(Rune letter) =>
        !letter.IsBmp
        || letter.Value
            is (>= 0x0590 and <= 0x109F)
                or (>= 0x1100 and <= 0x11FF)
                or (>= 0x1700 and <= 0x18AF)
                or (>= 0x1900 and <= 0x1C7F)
                or (>= 0x1CC0 and <= 0x1CFF)
                or (>= 0xA800 and <= 0xABFF)
                or (>= 0xFB1D and <= 0xFDFF)
                or (>= 0xFE70 and <= 0xFEFE);
}
