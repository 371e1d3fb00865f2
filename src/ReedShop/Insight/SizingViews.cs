using ReedShop.Planning;
using ReedShop.Platform.Http;

namespace ReedShop.Insight;

/// <summary>Where a batch gets its blanks: it starts before or after the shelf.</summary>
public enum BlanksFrom
{
    Cane,
    Shelf,
}

/// <summary>What binds first when more blanks are started.</summary>
public enum SizingLimit
{
    /// <summary>The most blanks the shop has in one batch.</summary>
    Batch,

    /// <summary>What a usual evening offers: with more blanks a sitting takes several evenings.</summary>
    Evening,

    Rack,

    Shelf,

    Cane,
}

/// <param name="Cost">Expected cost until the need is met, later runs, lateness and reeds too many included.</param>
/// <param name="Evenings">Evenings of work.</param>
/// <param name="Minutes">Hands-on minutes, set-ups included.</param>
/// <param name="Limit">The narrowest limit that so many blanks exceed; missing where none is.</param>
public sealed record SizingRow(
    int Blanks,
    double Chance,
    double ExpectedGood,
    Money? Cost,
    int Evenings,
    int Minutes,
    SizingLimit? Limit
);

/// <summary>The most blanks that something allows.</summary>
public sealed record LimitView(SizingLimit Limit, int Blanks);

public sealed record AimShareView(Strength Aim, double Share, int Batches);

public sealed record ExpectedView(Strength Strength, double Reeds);

/// <summary>The size that costs least on the mean.</summary>
public sealed record CheapestView(int Blanks, Money Cost, double Chance);

/// <summary>What the cost is made of, from the shop's settings.</summary>
/// <param name="LateRun">Of a run after the due day.</param>
public sealed record RunPricesView(Money SetUp, Money Blank, Money LateRun, Money FirstSurplus);

/// <param name="Blanks">The smallest number that reaches the confidence; missing where none within the table does.</param>
/// <param name="Expected">Mean reeds in each strength from so many blanks.</param>
/// <param name="Batches">Graded batches of the model behind the grade mix.</param>
/// <param name="Aims">Share that lands on the wanted strength, for each aim.</param>
/// <param name="BestAim">The aim that gives most of it.</param>
/// <param name="Limits">Narrowest first.</param>
public sealed record SizingView(
    int? Blanks,
    double? Chance,
    double? ExpectedGood,
    IReadOnlyList<SizingRow> Table,
    IReadOnlyList<ExpectedView> Expected,
    Strength Aim,
    Strength BestAim,
    IReadOnlyList<AimShareView> Aims,
    BlanksFrom From,
    int Batches,
    CheapestView? Cheapest,
    RunPricesView Prices,
    IReadOnlyList<LimitView> Limits
);

public sealed record AimedBatchView(Strength Aim, int Blanks);

/// <summary>Batches of one aim or two that together cover a need; none where no size within the table does.</summary>
public sealed record JointSizingView(
    IReadOnlyList<AimedBatchView> Batches,
    int? Blanks,
    double? Chance,
    IReadOnlyList<ExpectedView> Expected
);
