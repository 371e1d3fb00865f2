namespace ReedShop.Planning.Scheduling;

/// <summary>
/// How a search leans away from the cheapest place, so that it comes to see others: a price on set-ups that a day has
/// not paid yet, which draws like work together, and chance. Both in 1/1024 of a cost.
/// </summary>
/// <param name="SetUpPrice">Price of a set-up minute.</param>
/// <param name="Chance">Most that chance adds to a sitting's day, in 1/1023.</param>
/// <param name="Draw">Which chances are drawn.</param>
internal readonly record struct Lean(int SetUpPrice, int Chance, int Draw)
{
    /// <summary>The cheapest place; of equals, the one that leaves the least to set up.</summary>
    public static Lean None { get; } = new(1, 0, 0);
}
