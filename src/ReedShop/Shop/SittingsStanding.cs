namespace ReedShop.Shop;

/// <summary>Work of the maker's that the plan has on a day.</summary>
/// <param name="Number">What is written on the tray.</param>
/// <param name="Minutes">Hands-on, without the set-ups that the day's work shares.</param>
public sealed record StandingSitting(
    DateOnly Date,
    string Batch,
    string Number,
    IReadOnlyList<string> Steps,
    int Minutes
);

/// <summary>
/// What the plan has on days whose hours are about to change, so that nobody closes an evening unawares. The workshop
/// knows the plan.
/// </summary>
public delegate Task<IReadOnlyList<StandingSitting>> SittingsStanding(
    DateOnly first,
    DateOnly last,
    CancellationToken cancel
);
