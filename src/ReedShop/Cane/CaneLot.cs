namespace ReedShop.Cane;

/// <summary>Cane bought together, counted in blanks that can still be started.</summary>
public sealed class CaneLot
{
    public required string Key { get; init; }

    /// <summary>The model its tubes are wide enough for.</summary>
    public required string Model { get; init; }

    public required string Supplier { get; init; }

    public int Harvest { get; init; }

    public DateOnly SeasonedFrom { get; init; }

    public int BlanksLeft { get; set; }
}
