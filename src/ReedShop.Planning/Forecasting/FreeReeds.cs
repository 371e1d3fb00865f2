using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>
/// Reeds of one draw that nobody waits for. They serve who comes up short, unless buyers have taken them: orders come at
/// random, and each takes its number of a strength, or what there is.
/// </summary>
internal sealed class FreeReeds
{
    private const int StrengthsInAll = Strength.MostQuarters - Strength.LeastQuarters + 1;

    private readonly int[] atFirst;
    private readonly ReedsOrdered[] orders;

    /// <summary>The kinds that somebody orders.</summary>
    private readonly int[] ordered;
    private readonly int[] free;

    /// <summary>By kind, how many orders have come, and when the next will, in days from today.</summary>
    private readonly int[] ordersCome;
    private readonly double[] nextOrder;
    private readonly List<ReedsMoved> moves = [];
    private Chances chances;

    public FreeReeds(ShopState state, string[] models)
    {
        free = new int[models.Length * StrengthsInAll];
        atFirst = new int[free.Length];
        orders = new ReedsOrdered[free.Length];
        ordersCome = new int[free.Length];
        nextOrder = new double[free.Length];
        Array.Fill(nextOrder, double.PositiveInfinity);
        foreach (var ((model, strength), count) in state.DrawerFree)
        {
            atFirst[Place(Array.IndexOf(models, model), strength)] = count;
        }

        foreach (var ((model, strength), kind) in state.Ordered)
        {
            orders[Place(Array.IndexOf(models, model), strength)] = kind;
        }

        ordered = [.. Enumerable.Range(0, free.Length).Where(place => orders[place].PerDay > 0)];
    }

    public int Kinds => free.Length;

    /// <summary>What became free in this draw, and what was taken, as it came.</summary>
    public IReadOnlyCollection<ReedsMoved> Moves => moves;

    public void Clear(Chances drawn)
    {
        chances = drawn;
        atFirst.CopyTo(free, 0);
        moves.Clear();
        foreach (var place in ordered)
        {
            (ordersCome[place], nextOrder[place]) = (0, 0);
            Await(place);
        }
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
            LetOrdersTake(move.Place, move.Day);
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
        LetOrdersTake(place, day);
        var taken = Math.Min(wanted, free[place]);
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
            LetOrdersTake(place, day);
            free[place] += reeds;
            moves.Add(new ReedsMoved(place, reeds, day));
        }
    }

    /// <summary>Those that come before a day.</summary>
    private void LetOrdersTake(int place, int day)
    {
        while (nextOrder[place] < day)
        {
            free[place] = Math.Max(0, free[place] - orders[place].Reeds);
            Await(place);
        }
    }

    /// <summary>Waits between orders that come at random are exponential.</summary>
    private void Await(int place) =>
        nextOrder[place] -= Math.Log(1 - chances.Of((ulong)place, ordersCome[place]++)) / orders[place].PerDay;

    /// <summary>Number of a kind of reed.</summary>
    public static int Place(int model, Strength strength) =>
        (model * StrengthsInAll) + strength.Quarters - Strength.LeastQuarters;
}

/// <summary>Reeds of one kind that became free on a day, or were taken where they are below 0.</summary>
/// <param name="Place">Number of the model and strength.</param>
internal readonly record struct ReedsMoved(int Place, int Reeds, int Day);
