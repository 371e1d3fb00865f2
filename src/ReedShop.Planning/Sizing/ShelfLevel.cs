namespace ReedShop.Planning.Sizing;

/// <summary>What orders of the last days would have taken from the shelf.</summary>
/// <param name="Days">Days they came within.</param>
/// <param name="Orders">Blanks of each order, 1 or more.</param>
public sealed record PastDemand(int Days, IReadOnlyList<int> Orders);

/// <summary>
/// The base stock of the shelf: so many rested blanks that, topped up to it whenever there is an idle evening, it lasts
/// until the next run is prepared.
/// </summary>
/// <param name="Blanks">The level; 0 where no order was seen yet.</param>
/// <param name="Chance">That orders take no more than this before the next run is there.</param>
/// <param name="MeanDemand">Blanks they take on the mean until then.</param>
public sealed record ShelfLevel(int Blanks, double Chance, double MeanDemand)
{
    // Before any order was seen: half an order in a month, believed as weakly as half an order was seen.
    private const double SoberOrders = 0.5;
    private const double SoberDays = 30;

    /// <summary>No shelf of a workshop of one holds more.</summary>
    private const int MostBlanks = 600;

    /// <summary>
    /// Orders come as a Poisson stream whose rate has a gamma law, so that their number until the next run is negative
    /// binomial; each takes as many blanks as one of the past orders did. The sum of such orders by the recursion of Panjer
    /// (ASTIN Bulletin 12(1), 1981).
    /// </summary>
    /// <param name="replenishmentDays">From seeing that blanks are short to having more.</param>
    /// <param name="service">The chance that the shelf should last, within 0 and 1.</param>
    public static ShelfLevel For(PastDemand past, int replenishmentDays, double service)
    {
        if (past.Orders.Count == 0)
        {
            return new ShelfLevel(0, 1, 0);
        }

        var seen = SoberOrders + past.Orders.Count;
        var days = SoberDays + past.Days;
        var mean = seen / days * replenishmentDays * past.Orders.Average();
        var law = Demand(past.Orders, seen, replenishmentDays / (days + replenishmentDays));
        var level = 0;
        var chance = law[0];
        while (chance < service && level < MostBlanks)
        {
            level++;
            chance += law[level];
        }

        return new ShelfLevel(level, Math.Min(1, chance), mean);
    }

    /// <summary>Probabilities of a demand of 0..most blanks.</summary>
    private static double[] Demand(IReadOnlyList<int> orders, double seen, double share)
    {
        var sizes = new double[MostBlanks + 1];
        foreach (var blanks in orders)
        {
            sizes[Math.Min(blanks, MostBlanks)] += 1.0 / orders.Count;
        }

        var law = new double[MostBlanks + 1];
        law[0] = Math.Pow(1 - share, seen);
        for (var blanks = 1; blanks <= MostBlanks; blanks++)
        {
            for (var size = 1; size <= blanks; size++)
            {
                law[blanks] += share * (1 + ((seen - 1) * size / blanks)) * sizes[size] * law[blanks - size];
            }
        }

        return law;
    }
}
