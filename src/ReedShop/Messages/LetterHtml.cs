using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.RegularExpressions;

namespace ReedShop.Messages;

/// <summary>
/// The same letter for those who read HTML, made from the plain text alone: both say the same words. Nothing is fetched
/// from anywhere, so that reading it tells nobody; without its style it reads as well.
/// </summary>
internal static partial class LetterHtml
{
    private const string Style = """
        :root { color-scheme: light dark; }
        body { margin: 0; padding: 1.2rem; background: #f6f8fb; color: #1c2433; font: 16px/1.5 sans-serif; }
        main { max-width: 36rem; margin: 0 auto; }
        h1 { font-size: 1.2rem; line-height: 1.3; border-bottom: 2px solid #d9b867; padding-bottom: .4rem; }
        a { color: #7a2b55; overflow-wrap: anywhere; }
        .in { display: inline-block; padding-left: 1.2rem; }
        .foot { color: #5a6579; font-size: .85rem; }
        @media (prefers-color-scheme: dark) {
          body { background: #161c28; color: #e6eaf2; }
          a { color: #e79ac4; }
          .foot { color: #a3aec2; }
        }
        """;

    /// <summary>Letters, figures and signs of any language stay as they are; only what HTML reads is written otherwise.</summary>
    private static readonly HtmlEncoder Encoder = HtmlEncoder.Create(System.Text.Unicode.UnicodeRanges.All);

    /// <param name="language">What both are written in, such as "de-DE": a voice that reads it aloud goes by it.</param>
    public static string Of(string title, string text, string language)
    {
        var way = CultureInfo.GetCultureInfo(language).TextInfo.IsRightToLeft ? "rtl" : "ltr";
        var html = new StringBuilder("<!DOCTYPE html>\n<html lang=\"")
            .Append(Encoder.Encode(language))
            .Append("\" dir=\"")
            .Append(way)
            .Append("\">\n<head>\n<meta charset=\"utf-8\">\n")
            .Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
            .Append("<meta name=\"color-scheme\" content=\"light dark\">\n<title>")
            .Append(Encoder.Encode(title))
            .Append("</title>\n<style>\n")
            .Append(Style)
            .Append("\n</style>\n</head>\n<body>\n<main>\n<h1>")
            .Append(Encoder.Encode(title))
            .Append("</h1>\n");
        foreach (var paragraph in text.ReplaceLineEndings("\n").Split("\n\n", StringSplitOptions.RemoveEmptyEntries))
        {
            Append(html, paragraph.Trim('\n'));
        }

        return html.Append("</main>\n</body>\n</html>\n").ToString();
    }

    /// <summary>"-- " alone on a line parts what is said from what stands below every letter of its kind (RFC 3676, 4.3).</summary>
    private static void Append(StringBuilder html, string paragraph)
    {
        const string parting = "-- \n";
        var isFoot = paragraph.StartsWith(parting, StringComparison.Ordinal);
        var lines = (isFoot ? paragraph[parting.Length..] : paragraph).Split('\n').Where(line => line.Length > 0);
        html.Append(isFoot ? "<p class=\"foot\">" : "<p>").AppendJoin("<br>\n", lines.Select(Line)).Append("</p>\n");
    }

    private static string Line(string line)
    {
        var said = Links(line.TrimStart(' '));
        return line.StartsWith("  ", StringComparison.Ordinal) ? $"<span class=\"in\">{said}</span>" : said;
    }

    private static string Links(string line)
    {
        var html = new StringBuilder();
        var done = 0;
        foreach (var link in Address().EnumerateMatches(line))
        {
            var address = Encoder.Encode(line.Substring(link.Index, link.Length));
            html.Append(Encoder.Encode(line[done..link.Index]));
            html.Append("<a href=\"").Append(address).Append("\">").Append(address).Append("</a>");
            done = link.Index + link.Length;
        }

        html.Append(Encoder.Encode(line[done..]));
        return Column().Replace(html.ToString(), "&emsp;");
    }

    /// <summary>Several spaces part the columns of a day list; HTML would make one of them.</summary>
    [GeneratedRegex(" {2,}", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Column();

    /// <summary>A full stop or bracket after an address belongs to the sentence.</summary>
    [GeneratedRegex("https?://[^\\s<>\"]*[^\\s<>\".,;:!?)]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Address();
}
