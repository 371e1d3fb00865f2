using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab;

/// <summary>Random workloads so small that a constraint solver can prove the cheapest plan. Invented, and even scarce.</summary>
internal static class SmallWork
{
    private const int Days = 28;

    private static readonly Dictionary<string, int> SetUps = new(StringComparer.Ordinal)
    {
        ["plate"] = 10,
        ["profile"] = 15,
        ["tip"] = 5,
    };

    private static readonly string[][] Keys =
    [
        [],
        ["plate"],
        ["profile"],
        ["tip"],
        ["profile", "tip"],
    ];

    public static Workload Draw(ulong seed)
    {
        var dice = new Dice(seed);
        int[] open = [.. Enumerable.Range(0, Days).Select(_ => dice.Below(4) == 0 ? 0 : 60 + (15 * dice.Below(5)))];
        var batches = new WorkBatch[3 + dice.Below(5)];
        for (var b = 0; b < batches.Length; b++)
        {
            batches[b] = Batch(b, ref dice);
        }

        return new Workload(open, 50 + (10 * dice.Below(4)), SetUps, batches);
    }

    private static WorkBatch Batch(int number, ref Dice dice)
    {
        var sittings = new WorkSitting[2 + dice.Below(3)];
        for (var k = 0; k < sittings.Length; k++)
        {
            var nights = k == sittings.Length - 1 ? 0 : 1 + dice.Below(2);
            int? most = dice.Below(2) == 0 || nights == 0 ? null : nights + 1 + dice.Below(4);
            sittings[k] = new(20 + dice.Below(41), Keys[dice.Below(Keys.Length)], nights, most);
        }

        var release = dice.Below(8);
        return new(
            $"B{number}",
            10 + dice.Below(15),
            release,
            release + 4 + dice.Below(12),
            sittings,
            1 + dice.Below(3)
        );
    }
}
