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
    }

    public int Count { get; }

    /// <summary>Laws of the state after 0..most finished reeds of a mix.</summary>
    public double[][] AfterReeds(GradeMix mix, int most)
    {
        var laws = Enumerable.Range(0, most + 1).Select(_ => new double[Count]).ToArray();
        foreach (var node in mix.Nodes)
        {
            var shares = need.Parts.Select(part => node.Share(part.Accepted)).ToArray();
            var law = new double[Count];
            law[0] = node.Weight;
            foreach (var sum in laws)
            {
                Grid.Add(sum, law, 1);
                AddReed(law, shares);
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
                if (Met(state, part) < need.Parts[part].Count)
                {
                    chances[state] += chances[state + strides[part]];
                }
            }
        }

        return chances;
    }

    private void AddReed(double[] law, double[] shares)
    {
        var elsewhere = Math.Max(0, 1 - shares.Sum());
        for (var state = Count - 1; state >= 0; state--)
        {
            var stays = elsewhere;
            var comes = 0.0;
            for (var part = 0; part < shares.Length; part++)
            {
                var met = Met(state, part);
                stays += met == need.Parts[part].Count ? shares[part] : 0;
                comes += met > 0 ? shares[part] * law[state - strides[part]] : 0;
            }

            law[state] = (law[state] * stays) + comes;
        }
    }

    private int Met(int state, int part) => state / strides[part] % (need.Parts[part].Count + 1);
}
