using ReedShop.Planning;
using ReedShop.Planning.Promising;

namespace ReedShop.Lab.Trials;

/// <summary>What a buyer asks for, whether or not it comes to an order.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Hour">Of the day, 0 to 23.</param>
/// <param name="LongestWait">Days to the promised ship day beyond which the buyer goes elsewhere.</param>
internal sealed record Wish(int Number, int Day, int Hour, PromiseRequest Request, int LongestWait)
{
    public int Reeds => Request.Lines.Sum(line => line.Quantity);
}

/// <summary>Orders come at random, more of them in some months, for one to three strengths around 3.</summary>
internal static class Demand
{
    private const int YearDays = 365;
    public static readonly double[] Confidences = [0.5, 0.8, 0.9, 0.95];

    public static double OrdersPerYear(ulong seed) => Draws.At(seed, What.Demand).FirstBetween(20, 80);

    public static IReadOnlyList<Wish> Of(ulong seed, Premises premises, int days)
    {
        var shop = Draws.At(seed, What.Demand);
        var (perYear, swing, busiest) = (shop.Between(20.0, 80), shop.Between(0.1, 0.6), shop.Share());
        var wishes = new List<Wish>();
        for (var day = 0; day < days; day++)
        {
            var season = 1 + (swing * Math.Cos(2 * Math.PI * (((double)day / YearDays) - busiest)));
            var dice = Draws.At(seed, What.Demand, (ulong)day);
            for (var left = dice.Poisson(perYear / YearDays * season); left > 0; left--)
            {
                wishes.Add(Drawn(seed, premises, wishes.Count + 1, day));
            }
        }

        return wishes;
    }

    private static Wish Drawn(ulong seed, Premises premises, int number, int day)
    {
        var dice = Draws.At(seed, What.Order, (ulong)number);
        var model = premises.Models[dice.Below(premises.Models.Count)].Name;
        // Most buyers want one strength; three are rare.
        var count = 1 + dice.Of(2, 0.25);
        var lines = new Dictionary<Strength, PromiseLine>();
        while (lines.Count < count)
        {
            var strength = Strength.OfQuarters(Math.Clamp(2 * (int)Math.Round(6 + dice.Normal()), 6, 18));
            lines.TryAdd(strength, new PromiseLine(model, strength, dice.Between(3, 12)));
        }

        var confidence = Confidences[dice.Below(Confidences.Length)];
        var neighbours = dice.Happens(0.3) ? 1 : 0;
        var request = new PromiseRequest([.. lines.Values], confidence, neighbours);
        return new Wish(number, day, dice.Below(24), request, dice.Between(14, 90));
    }
}
