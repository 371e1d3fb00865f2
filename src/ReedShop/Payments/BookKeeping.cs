using System.Collections.ObjectModel;
using ReedShop.Catalogue;

namespace ReedShop.Payments;

/// <summary>What it takes to write rows: the day, the heading of papers, and where rows go.</summary>
/// <param name="NextNumber">The next number of a kind of paper, given once.</param>
/// <param name="Keep">Adds a row to what the running transaction saves.</param>
public sealed record BookKeeping(
    DateTime NowUtc,
    DateOnly Today,
    string ShopName,
    string ShopEmail,
    Func<PaperKind, int> NextNumber,
    Action<object> Keep
)
{
    /// <summary>Of the catalogue, for the names of what was bought.</summary>
    public IReadOnlyDictionary<string, ReedModel> Models { get; init; } = ReadOnlyDictionary<string, ReedModel>.Empty;

    /// <summary>What the shop prints under its papers, such as its tax number.</summary>
    public string? Note { get; init; }

    /// <summary>The tax that prices contain; none where the share is 0.</summary>
    public (string? Name, double Share) Tax { get; init; }
}
