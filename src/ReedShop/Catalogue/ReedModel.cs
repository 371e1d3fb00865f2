using ReedShop.Planning;
using ReedShop.Planning.Routes;

namespace ReedShop.Catalogue;

/// <summary>A kind of reed the shop sells.</summary>
public sealed class ReedModel
{
    /// <summary>Short name in links and files, such as "clarinet".</summary>
    public required string Key { get; init; }

    public required string Name { get; set; }

    public required string Instrument { get; set; }

    public required string Cut { get; set; }

    public required IReadOnlyList<Strength> Strengths { get; set; }

    /// <summary>Price of one reed in the minor unit of the shop's currency.</summary>
    public long PriceMinor { get; set; }

    public required ReedRoute Route { get; set; }

    public bool Selling { get; set; }

    public int Version { get; set; }
}
