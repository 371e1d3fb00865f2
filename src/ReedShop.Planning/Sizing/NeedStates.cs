using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>
/// How far each part of a need is met, a count for every part that stops at what is needed: all such states in a row, the
/// first with nothing met, the last with everything.
/// </summary>
internal sealed class NeedStates
{
    private readonly GradeNeed need;
    private readonly int[] strides;

    /// <summary>[part][state]: how far the part is met.</summary>
    private readonly int[][] met;

    public NeedStates(GradeNeed need)
    {
        this.need = need;
        strides = new int[need.Parts.Count];
        Count = 1;
        for (var part = 0; part < strides.Length; part++)
        {
            strides[part] = Count;
            Count *= need.Parts[part].Count + 1;
        }

        met =
        [
            .. strides.Select(
                (stride, part) =>
                    Enumerable.Range(0, Count).Select(state => state / stride % (need.Parts[part].Count + 1)).ToArray()
            ),
        ];
    }

    public int Count { get; }

    /// <summary>How many states a need has, before any is made; a number too large to hold counts as the largest there is.</summary>
    public static long CountOf(GradeNeed need) =>
        need.Parts.Aggregate(1L, (count, part) => count > int.MaxValue ? count : count * (part.Count + 1L));

    /// <summary>Laws of the state after 0..most finished reeds of a mix.</summary>
    public double[][] AfterReeds(GradeMix mix, int most)
    {
        var laws = Enumerable.Range(0, most + 1).Select(_ => new double[Count]).ToArray();
        foreach (var node in mix.Nodes)
        {
            var (stays, comes) = Moves([.. need.Parts.Select(part => node.Share(part.Accepted))]);
            var law = new double[Count];
            law[0] = node.Weight;
            foreach (var sum in laws)
            {
                Grid.Add(sum, law, 1);
                AddReed(law, stays, comes);
            }
        }

        return laws;
    }

    /// <summary>Chances that each part is met at least as far as a state says.</summary>
    public double[] AtLeast(double[] law)
    {
        var chances = (double[])law.Clone();
        for (var part = 0; part < strides.Length; part++)
        {
            for (var state = Count - 1; state >= 0; state--)
            {
                if (met[part][state] < need.Parts[part].Count)
                {
                    chances[state] += chances[state + strides[part]];
                }
            }
        }

        return chances;
    }

    /// <summary>The chance that one more reed leaves a state as it is, and for each part that it is reached from below.</summary>
    private (double[] Stays, double[][] Comes) Moves(double[] shares)
    {
        var stays = new double[Count];
        Array.Fill(stays, Math.Max(0, 1 - shares.Sum()));
        var comes = Array.ConvertAll(shares, _ => new double[Count]);
        for (var part = 0; part < shares.Length; part++)
        {
            for (var state = 0; state < Count; state++)
            {
                stays[state] += met[part][state] == need.Parts[part].Count ? shares[part] : 0;
                comes[part][state] = met[part][state] > 0 ? shares[part] : 0;
            }
        }

        return (stays, comes);
    }

    private void AddReed(double[] law, double[] stays, double[][] comes)
    {
        for (var state = Count - 1; state >= 0; state--)
        {
            var chance = law[state] * stays[state];
            for (var part = 0; part < comes.Length; part++)
            {
                // Where nothing comes from below there may be no state below.
                chance += comes[part][state] * law[Math.Max(0, state - strides[part])];
            }

            law[state] = chance;
        }
    }
}
