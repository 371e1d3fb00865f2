namespace ReedShop.Planning.Scheduling;

/// <summary>Random numbers that follow from the seed alone, on every runtime (SplitMix64: Steele, Lea, Flood 2014).</summary>
public struct Dice(ulong seed)
{
    private ulong state = seed;

    public ulong Next()
    {
        state += 0x9E3779B97F4A7C15;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }

    /// <summary>A whole number from 0 to <paramref name="count"/> - 1.</summary>
    public int Below(int count) => (int)(((Next() >> 32) * (ulong)count) >> 32);

    /// <summary>A number above 0, at most 1.</summary>
    public double Share() => ((Next() >> 11) + 1) * (1.0 / (1UL << 53));
}
