namespace ReedShop.Planning.Promising;

/// <summary>The orders that reeds of a strength would serve.</summary>
/// <param name="PerDay">How many come a day.</param>
/// <param name="Reeds">How many reeds one takes where there are so many.</param>
public readonly record struct ReedsOrdered(double PerDay, int Reeds)
{
    /// <summary>Half a year: long enough to have seen some orders, short enough to follow the seasons.</summary>
    public const int Days = 182;

    /// <summary>What an order takes of a strength that is as good to it as the one it wants, which it takes first.</summary>
    private const double ShareOfOthers = 0.5;

    /// <param name="orders">With the day each came.</param>
    public static IReadOnlyDictionary<(string Model, Strength Strength), ReedsOrdered> Of(
        IEnumerable<(DateOnly Day, PromiseRequest Request)> orders,
        DateOnly today
    )
    {
        var lately = orders.Where(order => order.Day >= today.AddDays(-Days)).ToArray();
        var first = lately.Select(order => (DateOnly?)order.Day).Min() ?? today;
        var seen = Math.Max(1, today.DayNumber - first.DayNumber);
        return lately
            .SelectMany(order => order.Request.Lines.SelectMany(line => Takes(line, order.Request.Accepted(line))))
            .GroupBy(taken => taken.Kind)
            .ToDictionary(
                kind => kind.Key,
                kind => new ReedsOrdered(
                    (double)kind.Count() / seen,
                    (int)Math.Ceiling(kind.Average(taken => taken.Reeds))
                )
            );
    }

    private static IEnumerable<((string Model, Strength Strength) Kind, double Reeds)> Takes(
        PromiseLine line,
        IEnumerable<Strength> accepted
    ) =>
        accepted.Select(strength =>
            ((line.Model, strength), strength == line.Strength ? line.Quantity : ShareOfOthers * line.Quantity)
        );
}
