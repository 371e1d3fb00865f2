namespace ReedShop.Planning.Forecasting;

/// <summary>
/// Random numbers with an address: the draw, the thing it happens to and the event. Whoever else is in the shop, the same
/// thing meets the same luck, so that two plans are compared on the same draws and an answer does not hang on the order
/// of the questions.
/// </summary>
public readonly struct Chances(ulong seed, int draw)
{
    private readonly ulong start = Mix(seed + Mix((ulong)draw + 1));

    /// <summary>A number from 0, below 1.</summary>
    public double Of(ulong thing, int happening) =>
        (Mix(start ^ Mix(thing + ((ulong)happening * 0x9E3779B97F4A7C15))) >> 11) * (1.0 / (1UL << 53));

    /// <summary>The address of a thing by its name (FNV-1a of 64 bits: Fowler, Noll, Vo).</summary>
    public static ulong Address(string name)
    {
        var hash = 0xCBF29CE484222325;
        foreach (var letter in name)
        {
            hash = (hash ^ letter) * 0x100000001B3;
        }

        return hash;
    }

    /// <summary>The finisher of SplitMix64 (Steele, Lea, Flood 2014).</summary>
    private static ulong Mix(ulong z)
    {
        z += 0x9E3779B97F4A7C15;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
