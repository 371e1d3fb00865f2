using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Promising;

/// <summary>A batch under way or planned, or one of its trays, as it stands.</summary>
/// <param name="Id">As in the workload.</param>
/// <param name="Aim">Null for a batch that ends on the shelf.</param>
/// <param name="NextStep">From 1.</param>
/// <param name="Sittings">Those it still has, as in the workload.</param>
public sealed record OpenTray(
    string Id,
    string Root,
    string Model,
    Strength? Aim,
    string? CaneLot,
    int NextStep,
    int Blanks,
    IReadOnlyList<BenchSitting> Sittings
);

/// <summary>Reeds of an order that are still to come.</summary>
/// <param name="Root">The batch they are to come from; null where nothing makes them yet.</param>
/// <param name="Accepted">Strengths that serve, the wanted one first.</param>
public sealed record PeggedReeds(string? Root, string Model, IReadOnlyList<Strength> Accepted, int Quantity)
{
    /// <summary>Some of them, as they would be asked for again.</summary>
    public PromiseLine Wanted(int quantity) => new(Model, Accepted[0], quantity) { Also = [.. Accepted.Skip(1)] };
}

/// <summary>An order that was promised, with the reeds it still waits for.</summary>
/// <param name="Stated">The chance that was told with the promise.</param>
public sealed record OpenPromise(string Order, DateOnly ShipBy, IReadOnlyList<PeggedReeds> Pegs, double Stated = 1);
