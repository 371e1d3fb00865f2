using ReedShop.Catalogue;

namespace ReedShop.Demo;

/// <summary>A cane lot of the demo shop and what it is truly like, which the shop itself can only learn from its counts.</summary>
/// <param name="Kindness">Added to the share of blanks that survives a step.</param>
/// <param name="QuartersHarder">Quarter steps by which its reeds come out harder than aimed.</param>
public sealed record DemoLot(string Key, string Model, double Kindness, double QuartersHarder)
{
    /// <summary>Whether it was bought before the other lot of its model.</summary>
    public bool IsFirst => DemoCane.Of(Model)[0] == this;
}

/// <summary>Two lots for each model: one kind, one that warps and comes out soft. Invented.</summary>
public static class DemoCane
{
    public static IReadOnlyList<DemoLot> All { get; } =
    [
        new("clarinet A", ReadyRoutes.Clarinet.Model, -0.06, -0.6),
        new("clarinet B", ReadyRoutes.Clarinet.Model, 0.03, 0.2),
        new("bass A", ReadyRoutes.BassClarinet.Model, -0.09, -0.4),
        new("bass B", ReadyRoutes.BassClarinet.Model, 0.02, 0.2),
        new("alto A", ReadyRoutes.AltoSaxophone.Model, 0.03, 0),
        new("alto B", ReadyRoutes.AltoSaxophone.Model, -0.06, -0.5),
    ];

    /// <summary>The two lots of a model, the one bought first before the other.</summary>
    public static IReadOnlyList<DemoLot> Of(string model) => [.. All.Where(lot => lot.Model == model)];
}
