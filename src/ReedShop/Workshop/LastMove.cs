using System.Globalization;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>
/// What takes a move of a sitting back: the days that the sittings had. The page carries it in its address, so that it
/// lasts as long as the page is open; whether the days can still be had is asked when it is used.
/// </summary>
/// <param name="WasPinned">The sitting had a day of the maker's own before.</param>
/// <param name="To">The day it was moved to, on which it must stand still; none where it had that day already.</param>
public sealed record LastMove(string Sitting, bool WasPinned, DateOnly? To, IReadOnlyDictionary<string, DateOnly> Days)
{
    private const char Between = ',';
    private const char On = '@';
    private const string Own = "own";

    public static LastMove Of(string sitting, MoveView moved) =>
        new(
            sitting,
            moved.WasPinned,
            moved.Moved.FirstOrDefault(m => m.Sitting == sitting)?.To,
            moved.Moved.ToDictionary(m => m.Sitting, m => m.From, StringComparer.Ordinal)
        );

    /// <summary>Null where the text is none of ours.</summary>
    public static LastMove? Read(string? text)
    {
        var parts = (text ?? "").Split(Between);
        if (parts.Length < 3 || parts[0].Length == 0 || (parts[2].Length > 0 && Day(parts[2]) is null))
        {
            return null;
        }

        var days = new Dictionary<string, DateOnly>(StringComparer.Ordinal);
        foreach (var part in parts.Skip(3))
        {
            if (part.Split(On) is not [var sitting, var day] || Day(day) is not { } date || !days.TryAdd(sitting, date))
            {
                return null;
            }
        }

        return new LastMove(parts[0], parts[1] == Own, Day(parts[2]), days);
    }

    public override string ToString() =>
        string.Join(
            Between,
            [
                Sitting,
                WasPinned ? Own : "",
                To is { } to ? Words.Iso(to) : "",
                .. Days.Select(day => $"{day.Key}{On}{Words.Iso(day.Value)}"),
            ]
        );

    private static DateOnly? Day(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : null;
}
