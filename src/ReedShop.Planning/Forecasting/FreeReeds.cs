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
    private readonly List<ReedsMoved> moves = [];
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

    public int Kinds => free.Length;

    /// <summary>What became free in this draw, and what was taken, as it came.</summary>
    public IReadOnlyCollection<ReedsMoved> Moves => moves;

    public void Clear(Chances drawn)
    {
        chances = drawn;
        Array.Clear(free);
        moves.Clear();
        for (var place = 0; place < free.Length; place++)
        {
            Add(place, atFirst[place], 0);
        }

        moves.Clear();
    }

    /// <summary>Repeats what others added or took in this draw.</summary>
    public void Repeat(ReedsMoved move)
    {
        if (move.Reeds > 0)
        {
            Add(move.Place, move.Reeds, move.Day);
        }
        else
        {
            free[move.Place] = Math.Max(0, free[move.Place] + move.Reeds);
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
        if (taken > 0)
        {
            free[place] -= taken;
            moves.Add(new ReedsMoved(place, -taken, day));
        }

        return taken;
    }

    private void Add(int place, int reeds, int day)
    {
        if (reeds > 0)
        {
            free[place] = reeds + (day < takenOn[place] ? free[place] : 0);
            takenOn[place] = NextOrder(place, day);
            moves.Add(new ReedsMoved(place, reeds, day));
        }
    }

    /// <summary>Waits between orders that come at random are exponential.</summary>
    private int NextOrder(int place, int day) =>
        ordersPerDay[place] == 0
            ? NeverTaken
            : (int)Math.Min(NeverTaken, day + 1 - (Math.Log(1 - chances.Of((ulong)place, day)) / ordersPerDay[place]));

    /// <summary>Number of a kind of reed.</summary>
    public static int Place(int model, Strength strength) =>
        (model * StrengthsInAll) + strength.Quarters - Strength.LeastQuarters;
}

/// <summary>Reeds of one kind that became free on a day, or were taken where they are below 0.</summary>
/// <param name="Place">Number of the model and strength.</param>
internal readonly record struct ReedsMoved(int Place, int Reeds, int Day);
