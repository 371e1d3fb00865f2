namespace ReedShop.Planning.Forecasting;

/// <summary>
/// Reeds of one draw that nobody waits for. They serve who comes up short, unless the next buyer has taken them: orders
/// come at random, and one takes what there is of a strength.
/// </summary>
internal sealed class FreeReeds
{
    private const int StrengthsInAll = Strength.MostQuarters - Strength.LeastQuarters + 1;
    private const int NeverTaken = int.MaxValue;

    private readonly int[] atFirst;
    private readonly double[] ordersPerDay;
    private readonly int[] free;
    private readonly int[] takenOn;
    private Chances chances;

    public FreeReeds(Promising.ShopState state, string[] models)
    {
        free = new int[models.Length * StrengthsInAll];
        takenOn = new int[free.Length];
        atFirst = new int[free.Length];
        ordersPerDay = new double[free.Length];
        foreach (var ((model, strength), count) in state.DrawerFree)
        {
            atFirst[Place(Array.IndexOf(models, model), strength)] = count;
        }

        foreach (var ((model, strength), orders) in state.OrdersPerDay)
        {
            ordersPerDay[Place(Array.IndexOf(models, model), strength)] = orders;
        }
    }

    public void Clear(Chances drawn)
    {
        chances = drawn;
        Array.Clear(free);
        for (var place = 0; place < free.Length; place++)
        {
            Add(place, atFirst[place], 0);
        }
    }

    /// <summary>Finished reeds by strength, from the softest.</summary>
    public void Add(int model, ReadOnlySpan<int> graded, int day)
    {
        for (var strength = 0; strength < graded.Length; strength++)
        {
            Add((model * StrengthsInAll) + strength, graded[strength], day);
        }
    }

    /// <summary>As many as are wanted and there are.</summary>
    public int Take(int model, Strength strength, int wanted, int day)
    {
        var place = Place(model, strength);
        var taken = day < takenOn[place] ? Math.Min(wanted, free[place]) : 0;
        free[place] -= taken;
        return taken;
    }

    private void Add(int place, int reeds, int day)
    {
        if (reeds > 0)
        {
            free[place] = reeds + (day < takenOn[place] ? free[place] : 0);
            takenOn[place] = NextOrder(place, day);
        }
    }

    /// <summary>Waits between orders that come at random are exponential.</summary>
    private int NextOrder(int place, int day) =>
        ordersPerDay[place] == 0
            ? NeverTaken
            : (int)Math.Min(NeverTaken, day + 1 - (Math.Log(1 - chances.Of((ulong)place, day)) / ordersPerDay[place]));

    private static int Place(int model, Strength strength) =>
        (model * StrengthsInAll) + strength.Quarters - Strength.LeastQuarters;
}
