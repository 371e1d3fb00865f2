using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;

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

    /// <param name="doubledFrom">
    /// The day from which the same buyers come and as many others: they are numbered after all of the first, so that those
    /// ask as they would have.
    /// </param>
    public static IReadOnlyList<Wish> Of(ulong seed, Premises premises, int days, int? doubledFrom = null)
    {
        var wishes = new List<Wish>();
        Add(day => Draws.At(seed, What.Demand, (ulong)day), 0);
        Add(day => Draws.At(seed, What.Demand, (ulong)day, 1), doubledFrom ?? days);
        return wishes;

        void Add(Func<int, Dice> diceOf, int from)
        {
            for (var day = from; day < days; day++)
            {
                for (var left = diceOf(day).FirstPoisson(PerDay(seed, day)); left > 0; left--)
                {
                    wishes.Add(Drawn(seed, premises, wishes.Count + 1, day));
                }
            }
        }
    }

    private static double PerDay(ulong seed, int day)
    {
        var shop = Draws.At(seed, What.Demand);
        var (perYear, swing, busiest) = (shop.Between(20.0, 80), shop.Between(0.1, 0.6), shop.Share());
        return perYear / YearDays * (1 + (swing * Math.Cos(2 * Math.PI * (((double)day / YearDays) - busiest))));
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
