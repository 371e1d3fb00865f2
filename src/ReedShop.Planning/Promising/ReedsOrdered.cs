namespace ReedShop.Planning.Promising;

/// <summary>How often orders come that reeds of a strength would serve.</summary>
public static class ReedsOrdered
{
    /// <summary>Half a year: long enough to have seen some orders, short enough to follow the seasons.</summary>
    public const int Days = 182;

    /// <param name="orders">With the day each came.</param>
    public static IReadOnlyDictionary<(string Model, Strength Strength), double> PerDay(
        IEnumerable<(DateOnly Day, PromiseRequest Request)> orders,
        DateOnly today
    )
    {
        var lately = orders.Where(order => order.Day >= today.AddDays(-Days)).ToArray();
        var first = lately.Select(order => (DateOnly?)order.Day).Min() ?? today;
        var seen = Math.Max(1, today.DayNumber - first.DayNumber);
        return lately
            .SelectMany(order =>
                order.Request.Lines.SelectMany(line =>
                    order.Request.Accepted(line).Select(strength => (line.Model, strength))
                )
            )
            .CountBy(served => served)
            .ToDictionary(served => served.Key, served => (double)served.Value / seen);
    }
}
