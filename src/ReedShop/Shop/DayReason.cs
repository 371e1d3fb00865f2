using System.Globalization;

namespace ReedShop.Shop;

/// <summary>Why a day has other hours, brought into the shape that a line of the settings can be read back from.</summary>
public static class DayReason
{
    private const string Joint = "; ";

    /// <summary>On one line, not too long, and never such that it could be read as hours. Null where nothing is said.</summary>
    public static string? Of(string? text) =>
        Line(text) is not { } line ? null
        : OtherDaysText.IsOfHours(line) || line[0] == '+' ? Cut($"busy: {line}")
        : line;

    /// <summary>On one line and not too long. Null where nothing is said.</summary>
    public static string? Line(string? text)
    {
        var words = (text ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var line = new string([.. string.Join(' ', words).Where(letter => !char.IsControl(letter))]);
        return line.Length == 0 ? null : Cut(line);
    }

    /// <summary>What was there already, then what is new; nothing is said twice.</summary>
    public static string? Joined(string? before, IEnumerable<string> added)
    {
        var all = (before ?? "").Split(Joint, StringSplitOptions.RemoveEmptyEntries).Concat(added.Select(Of));
        return Of(string.Join(Joint, all.OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase)));
    }

    /// <summary>Cut between letters as a reader sees them, so that none is torn in two.</summary>
    private static string Cut(string line)
    {
        if (line.Length <= OtherDaysText.MostReasonCharacters)
        {
            return line;
        }

        var room = OtherDaysText.MostReasonCharacters - 1;
        var letters = StringInfo.ParseCombiningCharacters(line);
        return $"{line[..letters.Last(start => start <= room)].TrimEnd()}…";
    }
}
