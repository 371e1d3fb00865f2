using System.Globalization;

namespace ReedShop.Lab;

/// <summary>The best results known of a case: the cost of a plan, whether it is proven, and the finish of each quote.</summary>
internal sealed record Reference(double Load, long Cost, bool IsProven, int[] Finishes)
{
    public static Dictionary<string, Reference> Read(string path)
    {
        var lines = File.ReadAllLines(path);
        var names = lines[0].Split(',');
        int At(string name) => Array.IndexOf(names, name);
        return lines
            .Skip(1)
            .Select(line => line.Split(','))
            .ToDictionary(
                cells => cells[At("case")],
                cells => new Reference(
                    double.Parse(cells[At("utilisation")], CultureInfo.InvariantCulture),
                    long.Parse(cells[At("best_cost")], CultureInfo.InvariantCulture),
                    cells[At("status")] == "OPTIMAL",
                    [.. Whole(cells[At("quote_best_finish")])]
                ),
                StringComparer.Ordinal
            );
    }

    private static IEnumerable<int> Whole(string cell) =>
        cell.Split(';', StringSplitOptions.RemoveEmptyEntries)
            .Select(day => int.Parse(day, CultureInfo.InvariantCulture));
}
