using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Forecasting;

/// <summary>What happens to blanks in one draw. Batches of one model and lot share how kind the lot is and how hard it comes out.</summary>
internal sealed class Luck(ForecastBook book)
{
    private const int StrengthsInAll = Strength.MostQuarters - Strength.LeastQuarters + 1;

    // Events of one walker: its steps count from 1, so that these are out of their way.
    private const int Failing = 1 << 10;
    private const int Batch = 1 << 20;
    private const int Reed = (1 << 20) + 1;
    private const int LotKindness = 1;
    private const int LotHardness = 2;

    private readonly int[] kindness = new int[book.Estimates.Count];
    private readonly int[] hardness = new int[book.Estimates.Count];
    private readonly int[] graded = new int[StrengthsInAll];
    private Chances chances;

    public void Draw(Chances drawn)
    {
        chances = drawn;
        for (var known = 0; known < kindness.Length; known++)
        {
            kindness[known] = Among(
                book.Estimates[known].NodeWeights,
                chances.Of(book.AddressesOfLots[known], LotKindness)
            );
            hardness[known] = Among(
                book.Estimates[known].PlaceWeights,
                chances.Of(book.AddressesOfLots[known], LotHardness)
            );
        }
    }

    /// <summary>How many of so many blanks are kept at a step, sooner or later.</summary>
    public int Survivors(int walker, CountedStep step, int blanks)
    {
        // From the top, near which nearly all of the law lies.
        var law = step.Yield.Nodes[kindness[book.Walkers[walker].Known]].Survivors(blanks);
        var left = chances.Of(book.Walkers[walker].Address, step.Number);
        var kept = blanks;
        while (kept > 0 && left >= law[kept])
        {
            left -= law[kept--];
        }

        return kept;
    }

    /// <summary>How many of the kept ones must first be worked again.</summary>
    public int Failed(int walker, CountedStep step, int kept)
    {
        var failed = 0;
        for (var blank = 0; blank < kept; blank++)
        {
            var chance = chances.Of(book.Walkers[walker].Address, Failing + (step.Number << 12) + blank);
            failed += chance < step.Yield.RedoChance ? 1 : 0;
        }

        return failed;
    }

    /// <summary>Finished reeds by strength, from the softest.</summary>
    public Span<int> Graded(int walker, int reeds, Strength aim)
    {
        Array.Clear(graded);
        var entry = book.Walkers[walker];
        var node = entry.Yields.Grades(aim, hardness[entry.Known]).At(chances.Of(entry.Address, Batch));
        for (var reed = 0; reed < reeds; reed++)
        {
            if (node.Lands(chances.Of(entry.Address, Reed + reed)) is { } strength)
            {
                graded[strength.Quarters - Strength.LeastQuarters]++;
            }
        }

        return graded;
    }

    private static int Among(IReadOnlyList<double> weights, double left)
    {
        var index = 0;
        while (index < weights.Count - 1 && left >= weights[index])
        {
            left -= weights[index++];
        }

        return index;
    }
}
