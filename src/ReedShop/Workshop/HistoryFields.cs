using System.Globalization;
using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>Reads the fields of one line and gathers what is wrong with them, so that all of it is told at once.</summary>
public sealed class HistoryFields(HistoryLine line)
{
    public const int MostNameCharacters = 40;
    public const int MostBlanks = 10_000;
    private const int MostQuotedCharacters = 40;

    // A slip of the century would weigh nothing in the yields; better to say so.
    private static readonly DateOnly EarliestDate = new(1950, 1, 1);

    private readonly List<string> faults = [];

    /// <summary>All that is wrong with the line, or null.</summary>
    public string? Fault => line.Fault ?? (faults.Count == 0 ? null : string.Join("; ", faults));

    public void Add(string fault) => faults.Add(fault);

    public void Unknown(string column, string text, string known, IEnumerable<string> names) =>
        Add($"{column} {Told(text)}; {known} {string.Join(", ", names)}");

    /// <summary>Text as it stands, with white space and line breaks told apart by single blanks.</summary>
    public string Text(string column)
    {
        var text = line[column];
        return text.Any(char.IsWhiteSpace)
            ? string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
            : text;
    }

    /// <summary>A name of the maker's own: of a batch or, where it may be left out, of a cane lot.</summary>
    public string Name(string column, bool mayBeEmpty = false)
    {
        var name = Text(column);
        if (name.Length > MostNameCharacters || name.Any(char.IsControl) || (name.Length == 0 && !mayBeEmpty))
        {
            Add($"{column} {Told(name)}; write a name of 1 to {MostNameCharacters} characters");
        }

        return name;
    }

    /// <summary>Blanks or reeds.</summary>
    public int Count(string column, int whenEmpty = -1)
    {
        var text = Text(column);
        if (text.Length == 0 && whenEmpty >= 0)
        {
            return whenEmpty;
        }

        var isNumber = int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var count);
        if (isNumber && count is >= 0 and <= MostBlanks)
        {
            return count;
        }

        var why = isNumber && count < 0 ? $"is negative: {count}" : Told(text);
        Add($"{column} {why}; write a whole number from 0 to {MostBlanks}");
        return 0;
    }

    public DateOnly Date(string column, DateOnly today)
    {
        var text = Text(column);
        if (
            !DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date)
        )
        {
            Add($"{column} {Told(text)}; write year, month and day, such as {today:yyyy-MM-dd}");
        }
        else if (date > today)
        {
            Add($"{column} {date:yyyy-MM-dd} is still to come; write a day up to today, {today:yyyy-MM-dd}");
        }
        else if (date < EarliestDate)
        {
            Add($"{column} {date:yyyy-MM-dd} is too long ago; write a day from {EarliestDate:yyyy-MM-dd}");
        }

        return date;
    }

    /// <summary>A strength; null where the field is empty and may be.</summary>
    public Strength? Strength(string column, bool mayBeEmpty = false)
    {
        var text = Text(column);
        if (text.Length == 0 && mayBeEmpty)
        {
            return null;
        }

        if (Planning.Strength.TryParse(text, out var strength))
        {
            return strength;
        }

        Add($"{column} {Told(text)}; write {Planning.Strength.Allowed}");
        return null;
    }

    internal static string Shortened(string text) =>
        text.Length <= MostQuotedCharacters ? text : text[..MostQuotedCharacters] + "…";

    private static string Told(string text) => text.Length == 0 ? "is empty" : $"cannot be \"{Shortened(text)}\"";
}
