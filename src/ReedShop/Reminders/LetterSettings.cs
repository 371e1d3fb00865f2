using ReedShop.Platform;

namespace ReedShop.Reminders;

/// <summary>Which letters the maker wants, when letters rest, and when cane counts as low.</summary>
public sealed class LetterSettings
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    /// <summary>Names of the kinds that are not wanted.</summary>
    public IReadOnlyList<string> Stopped { get; set; } = [];

    /// <summary>Local time from which nothing goes out that nobody waits for; the same as the end where letters never rest.</summary>
    public TimeOnly QuietFrom { get; set; } = new(22, 0);

    public TimeOnly QuietUntil { get; set; } = new(7, 0);

    /// <summary>Cane that lasts fewer weeks than this, at the use of the last weeks, is low.</summary>
    public int CaneWeeks { get; set; } = 6;

    /// <summary>Opens the addresses at which letters stop their own kind.</summary>
    public string Secret { get; init; } = Links.New();

    public int Version { get; set; }

    public bool Wants(LetterKind kind) => !Stopped.Contains(kind.Name);

    /// <summary>The quiet hours may reach over midnight.</summary>
    public bool IsQuietAt(TimeOnly time) => time.IsBetween(QuietFrom, QuietUntil) && QuietFrom != QuietUntil;
}
