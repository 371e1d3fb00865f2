namespace ReedShop.Planning.Sizing;

/// <summary>What runs cost, all in one unit of money.</summary>
/// <param name="SetUp">Starting a run, however small.</param>
/// <param name="Blank">One blank started.</param>
/// <param name="LateRun">What one more run after the due day costs in lateness; infinite where there is no such run.</param>
/// <param name="GiveUp">Not delivering so many missing reeds; infinite where that is no choice.</param>
/// <param name="Surplus">Worth of so many reeds too many: 0 for 0, growing ever more slowly, bounded.</param>
public sealed record RunPrices(
    double SetUp,
    double Blank,
    double LateRun,
    Func<int, double> GiveUp,
    Func<int, double> Surplus
);

/// <summary>The cheapest thing to do.</summary>
/// <param name="Cost">Expected cost from here on.</param>
/// <param name="Blanks">Blanks to start now; null to give up, or where nothing is missing.</param>
public sealed record RunChoice(double Cost, int? Blanks);

/// <summary>
/// How many blanks to start at the least expected cost, when a run that falls short can be followed by another: with r runs
/// that still finish by the due day, and D reeds missing. Multiple lot-sizing in production to order with rigid demand
/// (Klein, Management Science 12(5), 1966), with a worth for surplus, a last due day and giving up.
/// </summary>
public sealed class RunPolicy
{
    private readonly double[][] good;
    private readonly RunPrices prices;
    private readonly RunChoice[][] choices;

    /// <param name="good">[blanks][good reeds]: probabilities, for every size of a run from 0 to the largest possible.</param>
    /// <param name="runs">Runs that can still finish by the due day.</param>
    /// <param name="missing">The most reeds that may be missing.</param>
    public RunPolicy(double[][] good, RunPrices prices, int runs, int missing)
    {
        this.good = good;
        this.prices = prices;
        choices = new RunChoice[runs + 1][];
        for (var r = 0; r <= runs; r++)
        {
            choices[r] = new RunChoice[missing + 1];
            choices[r][0] = new RunChoice(0, null);
            for (var d = 1; d <= missing; d++)
            {
                choices[r][d] = Cheapest(r, d);
            }
        }
    }

    /// <summary>What to do with so many runs left before the due day and so many reeds missing.</summary>
    public RunChoice this[int runsLeft, int missing] => choices[runsLeft][missing];

    /// <summary>
    /// Expected cost of starting so many blanks now and doing the cheapest thing ever after; 0 lets this run pass.
    /// </summary>
    /// <param name="blanks">0 to the largest size of a run.</param>
    public double CostOf(int runsLeft, int missing, int blanks) =>
        (blanks, runsLeft) switch
        {
            (0, 0) => prices.GiveUp(missing),
            (0, _) => choices[runsLeft - 1][missing].Cost,
            (_, 0) => LateCost(blanks, missing),
            _ => Cost(runsLeft, blanks, missing),
        };

    private RunChoice Cheapest(int runsLeft, int missing)
    {
        var best = new RunChoice(prices.GiveUp(missing), null);
        for (var blanks = 1; blanks < good.Length; blanks++)
        {
            var cost = CostOf(runsLeft, missing, blanks);
            if (cost < best.Cost)
            {
                best = new RunChoice(cost, blanks);
            }
        }

        return best;
    }

    private double Cost(int runsLeft, int blanks, int missing)
    {
        var row = good[blanks];
        var cost = Start(blanks, missing);
        for (var g = 0; g < Math.Min(missing, row.Length); g++)
        {
            cost += row[g] * choices[runsLeft - 1][missing - g].Cost;
        }

        return cost;
    }

    /// <summary>After the due day runs are not numbered: one that yields nothing is simply made again.</summary>
    private double LateCost(int blanks, int missing)
    {
        var row = good[blanks];
        var cost = Start(blanks, missing) + prices.LateRun;
        for (var g = 1; g < Math.Min(missing, row.Length); g++)
        {
            cost += row[g] * choices[0][missing - g].Cost;
        }

        return cost / (1 - row[0]);
    }

    private double Start(int blanks, int missing)
    {
        var row = good[blanks];
        var cost = prices.SetUp + (prices.Blank * blanks);
        for (var g = missing; g < row.Length; g++)
        {
            cost -= row[g] * prices.Surplus(g - missing);
        }

        return cost;
    }
}
