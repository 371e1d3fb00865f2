using ReedShop.Planning;

namespace ReedShop.Workshop;

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
