using System.Text;
using ReedShop.Planning.Scheduling;
using static System.FormattableString;

namespace ReedShop.Lab;

/// <summary>How near plans come to the best known: the median of many seeds, by case, by size and by load.</summary>
internal static class PlanComparison
{
    private sealed record Row(CaseFile File, Reference Known, long Cost, int Breaches)
    {
        public int Size => File.Work.Batches.Count;

        public double Ratio => (Cost + 1.0) / (Known.Cost + 1.0);

        public bool MissesProof => Known.IsProven && Cost > Known.Cost;
    }

    public static string Table(Arguments.ComparePlans asked)
    {
        var known = Reference.Read(asked.Reference);
        var rows = CaseFile.ReadAll(asked.Folder).Select(file => Measure(file, known[file.Name], asked)).ToArray();
        var text = new StringBuilder();
        text.AppendLine("case,batches,load,best known,median cost,ratio,breaches");
        foreach (var row in rows)
        {
            text.Append(Invariant($"{row.File.Name},{row.Size},{row.Known.Load:0.00},{row.Known.Cost},{row.Cost},"));
            text.AppendLine(Invariant($"{row.Ratio:0.000},{row.Breaches}"));
        }

        foreach (var size in rows.GroupBy(row => row.Size).OrderBy(size => size.Key))
        {
            text.AppendLine(Invariant($"{size.Key} batches: {Mean(size):0.000}"));
        }

        foreach (var load in rows.GroupBy(row => row.Known.Load).OrderBy(load => load.Key))
        {
            text.AppendLine(Invariant($"load {load.Key:0.00}: {Mean(load):0.000}"));
        }

        var small = rows.Where(row => row.Size <= 10).ToArray();
        text.AppendLine(small.Length == 0 ? "" : Invariant($"5 to 10 batches together: {Mean(small):0.000}"));
        var missed = rows.Where(row => row.MissesProof).Select(row => row.File.Name).ToArray();
        text.AppendLine(
            missed.Length == 0 ? "every proven optimum hit" : $"proven optimum missed: {string.Join(' ', missed)}"
        );
        return text.ToString();
    }

    private static double Mean(IEnumerable<Row> rows) => Math.Exp(rows.Average(row => Math.Log(row.Ratio)));

    private static Row Measure(CaseFile file, Reference known, Arguments.ComparePlans asked)
    {
        var plans = Enumerable
            .Range(1, asked.Seeds)
            .Select(seed => Planner.Build(file.Work, asked.Effort.Budget((ulong)seed)))
            .OrderBy(plan => PlanCost.Of(file.Work, plan))
            .ToArray();
        Console.Error.WriteLine(file.Name);
        return new(
            file,
            known,
            PlanCost.Of(file.Work, plans[plans.Length / 2]),
            plans.Sum(plan => PlanRules.Check(file.Work, plan).Count)
        );
    }
}
