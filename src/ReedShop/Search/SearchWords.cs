using System.Globalization;
using ReedShop.Platform;

namespace ReedShop.Search;

/// <summary>What is searched for: one word or several, all of which must be found.</summary>
public sealed class SearchWords
{
    public const int MostCharacters = 100;

    public const string Allowed =
        "a number, or 2 to 100 characters: an order’s number, part of a buyer’s name or e-mail address, a batch’s number, "
        + "a model or a cane lot";

    private static readonly CompareInfo Letters = CultureInfo.InvariantCulture.CompareInfo;

    private readonly string[] words;

    private SearchWords(string text, string[] words, Kind kind) => (Text, this.words, Wanted) = (text, words, kind);

    /// <summary>What is looked for.</summary>
    public enum Kind
    {
        Anything,
        Order,
        Batch,
    }

    /// <summary>"order 31" is that order alone, and so is "batch 5" or "tray 5a".</summary>
    public Kind Wanted { get; }

    public string Text { get; }

    /// <summary>What may be the number of an order or a batch: "12", "#12", "14a".</summary>
    public string Number => Text.TrimStart('#');

    /// <summary>Where there are only digits nobody's name is meant.</summary>
    public bool IsNumber => Number.Length > 0 && Number.All(char.IsAsciiDigit);

    public static Result<SearchWords> Parse(string text)
    {
        var trimmed = text.Trim();
        var typed = trimmed.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var wanted =
            typed is [var first, var number] && Named(first) is var kind && kind != Kind.Anything && IsNumeral(number)
                ? new SearchWords(number, [number], kind)
                : new SearchWords(trimmed, typed, Kind.Anything);
        return trimmed.Length > MostCharacters || (trimmed.Length < 2 && !wanted.IsNumber)
            ? Refusal.Invalid("q", "This cannot be searched for.", Allowed)
            : wanted;
    }

    private static Kind Named(string word) =>
        word.ToUpperInvariant() switch
        {
            "ORDER" => Kind.Order,
            "BATCH" or "TRAY" => Kind.Batch,
            _ => Kind.Anything,
        };

    private static bool IsNumeral(string word) => char.IsAsciiDigit(word.TrimStart('#').FirstOrDefault());

    /// <summary>Whether each word is a part of one of the texts; neither case nor accents count: "joao" finds "João".</summary>
    public bool AreIn(params string?[] texts) =>
        Array.TrueForAll(
            words,
            word =>
                Array.Exists(
                    texts,
                    text =>
                        text is not null
                        && Letters.IndexOf(text, word, CompareOptions.IgnoreCase | CompareOptions.IgnoreNonSpace) >= 0
                )
        );

    public bool IsNumberOf(string number) => string.Equals(Number, number, StringComparison.OrdinalIgnoreCase);
}
