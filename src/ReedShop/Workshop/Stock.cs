using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>Condition of a finished reed. Only unplayed and tested ones are sold.</summary>
public enum Condition
{
    Unplayed,
    Tested,
    Returned,
    OwnUse,
}

/// <summary>A change of what lies in the drawer; the sum of all is what lies there.</summary>
public sealed class DrawerMove
{
    public long Id { get; init; }

    public required DateTime AtUtc { get; init; }

    public required string Model { get; init; }

    public required Strength Strength { get; init; }

    public Condition Condition { get; init; } = Condition.Tested;

    public required int Change { get; init; }

    public required string Why { get; init; }
}

/// <summary>A change of the rested blanks between the legs; the sum of all is what lies there.</summary>
public sealed class ShelfMove
{
    public long Id { get; init; }

    public required DateTime AtUtc { get; init; }

    public required string Model { get; init; }

    /// <summary>Empty where the lot is not known.</summary>
    public required string CaneLot { get; init; }

    public required int Change { get; init; }

    public required string Why { get; init; }

    /// <summary>The batch that brought or took the blanks, so that undo can find it.</summary>
    public string? BatchId { get; init; }
}
