using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;

namespace ReedShop.Quotes;

/// <summary>Whether a day that was told before can still be kept, with the chance that was told.</summary>
public static class StillKept
{
    /// <summary>A thousand draws tell a chance of .9 to within a point.</summary>
    private const double SameChance = 0.01;

    /// <summary>A way to ship by that day, or null. The confidence asked for is tried first.</summary>
    /// <param name="chance">What was told.</param>
    public static Promise? By(ShopState state, PromiseRequest request, DateOnly shipBy, double chance)
    {
        var promise = ForecastPromiser.PromiseBy(state, request, shipBy).Promise;
        return promise is not null && promise.Chance < chance - SameChance
            ? ForecastPromiser.PromiseBy(state, request with { Confidence = chance - SameChance }, shipBy).Promise
            : promise;
    }
}
