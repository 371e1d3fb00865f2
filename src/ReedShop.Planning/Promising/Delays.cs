using ReedShop.Planning.Bench;

namespace ReedShop.Planning.Promising;

/// <summary>Nights that must leave the blanks dry, and evenings that must see their sitting, before reeds are done.</summary>
public readonly record struct WayAhead(int Nights, int Sittings)
{
    public static WayAhead Longest(WayAhead one, WayAhead other) =>
        new(Math.Max(one.Nights, other.Nights), Math.Max(one.Sittings, other.Sittings));

    public static WayAhead Of(IEnumerable<Scheduling.BenchSitting> sittings) =>
        sittings.Aggregate(
            new WayAhead(),
            (ahead, sitting) => new WayAhead(ahead.Nights + sitting.Work.Nights, ahead.Sittings + 1)
        );
}

/// <summary>
/// The allowance for delays, in closed form. Every night that a route needs is repeated until one leaves the blanks dry,
/// and every sitting waits for an evening that is not lost: what is added is negative binomial, twice. It takes one night
/// as independent of the next; the draws of the forecast do not.
/// </summary>
public static class Delays
{
    /// <summary>Chance that no more than <paramref name="spare"/> days are added to the way ahead.</summary>
    public static double ChanceWithin(WayAhead ahead, int spare, BenchHazards hazards, DateOnly today)
    {
        var damp = Law(ahead.Nights, spare, hazards.DampAhead(today));
        var lost = Law(ahead.Sittings, spare, hazards.EveningMissed);
        var (chance, lostUpTo) = (0.0, 0.0);
        for (var evenings = 0; evenings <= spare; evenings++)
        {
            lostUpTo += lost[evenings];
            chance += damp[spare - evenings] * lostUpTo;
        }

        return Math.Min(1, chance);
    }

    /// <summary>Chances of 0..most failures before so many successes: C(needed + x - 1, x) (1 - failing)^needed failing^x.</summary>
    private static double[] Law(int needed, int most, double failing)
    {
        var law = new double[most + 1];
        law[0] = Math.Pow(1 - failing, needed);
        for (var failures = 1; failures <= most; failures++)
        {
            law[failures] = law[failures - 1] * failing * (needed + failures - 1) / failures;
        }

        return law;
    }
}
