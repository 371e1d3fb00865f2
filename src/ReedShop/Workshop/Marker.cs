namespace ReedShop.Workshop;

/// <summary>A day from which on the bench works otherwise: batches before it count less in the yields.</summary>
public sealed class Marker
{
    public const int LongestWhat = 100;

    public required string Id { get; init; }

    public required DateOnly Date { get; init; }

    /// <summary>The model it touches; none where it touches all.</summary>
    public string? Model { get; init; }

    /// <summary>What changed, in the maker's words.</summary>
    public required string What { get; init; }

    /// <summary>Changes that makers note most; any other text will do.</summary>
    public static IReadOnlyList<string> Usual { get; } = ["new blade", "new template", "new paper"];
}
