using ReedShop.Planning;
using ReedShop.Planning.Routes;

namespace ReedShop.Catalogue;

/// <summary>A kind of reed the shop sells.</summary>
public sealed class ReedModel
{
    /// <summary>A reed alone weighs one to two grams: common practice, no source. For the maker to put right.</summary>
    public const decimal UsualGrams = 2;

    /// <summary>Short name in links and files, such as "clarinet".</summary>
    public required string Key { get; init; }

    public required string Name { get; set; }

    public required string Instrument { get; set; }

    public required string Cut { get; set; }

    public required IReadOnlyList<Strength> Strengths { get; set; }

    /// <summary>Price of one reed in the minor unit of the shop's currency.</summary>
    public long PriceMinor { get; set; }

    /// <summary>What one reed weighs: shipping is paid by weight.</summary>
    public decimal GramsPerReed { get; set; } = UsualGrams;

    public required ReedRoute Route { get; set; }

    public bool Selling { get; set; }

    public int Version { get; set; }
}
