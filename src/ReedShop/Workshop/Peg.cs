using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>
/// Which reeds serve which order line: reeds in the drawer (no batch), or reeds a batch is to give. A peg is removed
/// when the parcel leaves or the order is cancelled.
/// </summary>
public sealed class Peg
{
    public long Id { get; init; }

    public required string OrderId { get; init; }

    public required long OrderLineId { get; init; }

    /// <summary>The root batch; null for reeds in the drawer.</summary>
    public string? BatchRoot { get; init; }

    public required string Model { get; init; }

    public required Strength Strength { get; init; }

    public required int Quantity { get; set; }
}

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

/// <summary>The day of one sitting of the plan.</summary>
public sealed class PlannedSitting
{
    /// <summary>Batch, first step and part, such as "k3f-4-1".</summary>
    public required string Id { get; init; }

    public required string BatchId { get; init; }

    public required int Order { get; init; }

    public required int FirstStep { get; init; }

    public required int LastStep { get; init; }

    /// <summary>From 1; more than one where a sitting is longer than an evening and is cut.</summary>
    public required int Part { get; init; }

    public required int Blanks { get; init; }

    public required int Minutes { get; init; }

    public required DateOnly Day { get; init; }

    /// <summary>The maker chose this day.</summary>
    public bool Pinned { get; init; }
}

/// <summary>What the stored plan was made from: a plan whose key differs from today's facts is outdated.</summary>
public sealed class PlanKey
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    public long FactsVersion { get; set; }

    public DateOnly Day { get; set; }
}

/// <summary>A row of an imported history: one step of one past batch.</summary>
public sealed class PastStep
{
    public required string Batch { get; init; }

    public required string Model { get; init; }

    public Strength? Aim { get; init; }

    public required string CaneLot { get; init; }

    public required DateOnly Date { get; init; }

    public required string Step { get; init; }

    public required int In { get; init; }

    public required int Out { get; init; }

    public required int Redo { get; init; }
}

/// <summary>A row of an imported history: how many reeds of one past batch came out at one strength.</summary>
public sealed class PastGrade
{
    public required string Batch { get; init; }

    public required Strength Strength { get; init; }

    public required int Count { get; init; }
}
