using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>
/// Which reeds serve which order line: reeds in the drawer (no batch), or reeds a batch is to give. A peg is removed
/// when the parcel leaves or the order is cancelled.
/// </summary>
public sealed class Peg
{
    /// <summary>The root of reeds that are owed and that nothing makes yet, for want of cane or evenings.</summary>
    public const string NoBatch = "none";

    public long Id { get; init; }

    public required string OrderId { get; init; }

    public required int LinePosition { get; init; }

    /// <summary>The root batch; null for reeds in the drawer.</summary>
    public string? BatchRoot { get; init; }

    public required string Model { get; init; }

    public required Strength Strength { get; init; }

    public required int Quantity { get; set; }

    /// <summary>The chance of enough reeds that the promise of this peg rests on; 1 for reeds in the drawer.</summary>
    public required double Cover { get; init; }
}
