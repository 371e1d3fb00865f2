using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>"I need it by ...": how long the buyer may wait with the order.</summary>
public static class LatestOrder
{
    /// <summary>Draws tell a chance to a point or two; who is told a last day should not be turned away on it.</summary>
    private const double Margin = 0.02;

    /// <summary>
    /// The last day on which an order for the same reeds could still be promised to leave by a day, if nobody else orders
    /// before; null where it is too late already. Who orders later never gets reeds sooner, so that the day is found by halving.
    /// </summary>
    /// <param name="needBy">The last day the parcel may leave.</param>
    public static DateOnly? For(ShopState state, PromiseRequest request, DateOnly needBy)
    {
        var sure = request with { Confidence = Math.Min(DueDay.MostChance, request.Confidence + Margin) };
        if (!IsInTime(state, sure, needBy, 0))
        {
            return null;
        }

        var (inTime, tooLate) = (0, needBy.DayNumber - state.Today.DayNumber);
        while (tooLate - inTime > 1)
        {
            var middle = (inTime + tooLate) / 2;
            (inTime, tooLate) = IsInTime(state, sure, needBy, middle) ? (middle, tooLate) : (inTime, middle);
        }

        return state.Today.AddDays(inTime);
    }

    private static bool IsInTime(ShopState state, PromiseRequest request, DateOnly needBy, int day) =>
        ForecastPromiser.PromiseAmongStanding(state, request with { OrderDay = day }, fresh: true).Promise?.ShipBy
        <= needBy;
}
