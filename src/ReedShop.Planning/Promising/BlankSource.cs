namespace ReedShop.Planning.Promising;

/// <summary>Where a new batch gets its blanks, and the step it starts with.</summary>
/// <param name="Lot">The cane lot, or null where rested blanks of an unknown lot are taken.</param>
/// <param name="NotBeforeDay">
/// First day it may start, counted from today. New work never starts today: today's list was told this morning.
/// </param>
public sealed record BlankSource(string? Lot, bool FromShelf, int FirstStep, int Blanks, int NotBeforeDay)
{
    public const int Tomorrow = 1;

    /// <summary>Rested blanks first, which wait for the finishing leg only; then cane, longest seasoned first.</summary>
    /// <param name="orderDay">The day the order comes, counted from today.</param>
    public static IEnumerable<BlankSource> Of(ShopState state, string model, int orderDay = 0)
    {
        var first = orderDay + Tomorrow;
        var supply = state.Models[model];
        var shelf = supply.Shelf.Select(rested => new BlankSource(
            rested.Lot.Length == 0 ? null : rested.Lot,
            true,
            supply.Route.FirstFinishingStep,
            rested.Blanks,
            first
        ));
        var cane = supply.Cane.Select(lot => new BlankSource(
            lot.Lot,
            false,
            1,
            lot.Blanks,
            Math.Max(first, lot.SeasonedFrom.DayNumber - state.Today.DayNumber)
        ));
        return shelf.Concat(cane);
    }
}
