using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab.Trials;

/// <summary>What is drawn.</summary>
internal enum What
{
    Premises = 1,
    Step,
    ModelStep,
    Spread,
    Lot,
    Batch,
    BatchStep,
    TrayStep,
    TrayGrades,
    Weather,
    Evening,
    Illness,
    Demand,
    Order,
    Bootstrap,
    Pit,
    Shop,
    Arrival,
    Service,
}

/// <summary>
/// Draws are addressed by seed, by what is drawn and by number, never by the order in which they are asked for: every
/// way of promising meets the same nature and the same buyers.
/// </summary>
internal static class Draws
{
    public static Dice At(ulong seed, What what, params ReadOnlySpan<ulong> numbers)
    {
        var address = Mixed(seed, (ulong)what);
        foreach (var number in numbers)
        {
            address = Mixed(address, number);
        }

        return new Dice(address);
    }

    public static ulong Mixed(ulong address, ulong number) => new Dice(address ^ new Dice(number + 1).Next()).Next();

    public static double Between(this ref Dice dice, double low, double high) => low + ((high - low) * dice.Share());

    /// <summary>Both ends are drawn too.</summary>
    public static int Between(this ref Dice dice, int low, int high) => low + dice.Below(high - low + 1);

    /// <summary>For an address of which one number is asked.</summary>
    public static double FirstBetween(this Dice dice, double low, double high) => dice.Between(low, high);

    /// <summary>For an address of which one normal number is asked.</summary>
    public static double FirstNormal(this Dice dice) => dice.Normal();

    public static double FirstExponential(this Dice dice, double mean) => dice.Exponential(mean);

    public static double FirstBeta(this Dice dice, double mean, double clumping) => dice.Beta(mean, clumping);

    public static int FirstPoisson(this Dice dice, double mean) => dice.Poisson(mean);

    public static bool Happens(this ref Dice dice, double chance) => dice.Share() <= chance;

    /// <summary>Standard normal, by the method of Box and Muller.</summary>
    public static double Normal(this ref Dice dice) =>
        Math.Sqrt(-2 * Math.Log(dice.Share())) * Math.Cos(2 * Math.PI * dice.Share());

    public static double Exponential(this ref Dice dice, double mean) => -mean * Math.Log(dice.Share());

    /// <summary>How many of so many happen.</summary>
    public static int Of(this ref Dice dice, int count, double chance)
    {
        var happened = 0;
        for (var i = 0; i < count; i++)
        {
            happened += dice.Happens(chance) ? 1 : 0;
        }

        return happened;
    }

    /// <summary>A Poisson number, by multiplying shares until they fall below exp(-mean); for small means.</summary>
    public static int Poisson(this ref Dice dice, double mean)
    {
        var count = 0;
        for (var product = dice.Share(); product > Math.Exp(-mean); product *= dice.Share())
        {
            count++;
        }

        return count;
    }

    /// <summary>A beta number of the given mean; its clumping is 1 / (1 + both shapes together).</summary>
    public static double Beta(this ref Dice dice, double mean, double clumping)
    {
        var shapes = (1 / clumping) - 1;
        var (one, other) = (dice.Gamma(mean * shapes), dice.Gamma((1 - mean) * shapes));
        return one / (one + other);
    }

    /// <summary>Marsaglia and Tsang, A simple method for generating gamma variables (2000); small shapes by their note.</summary>
    private static double Gamma(this ref Dice dice, double shape)
    {
        if (shape < 1)
        {
            return dice.Gamma(shape + 1) * Math.Pow(dice.Share(), 1 / shape);
        }

        var d = shape - (1.0 / 3);
        while (true)
        {
            var x = dice.Normal();
            var v = Math.Pow(1 + (x / Math.Sqrt(9 * d)), 3);
            if (v > 0 && Math.Log(dice.Share()) < (0.5 * x * x) + (d * (1 - v + Math.Log(v))))
            {
                return d * v;
            }
        }
    }
}
