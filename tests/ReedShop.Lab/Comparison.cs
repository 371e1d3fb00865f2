using System.Globalization;
using System.Text;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab;

/// <summary>How near the planner comes to the best known results, case by case and by size.</summary>
internal static class Comparison
{
    private sealed record Known(long Cost, int[] Finishes);

    private sealed record Row(CaseFile File, Known? Known, long Cost, int Breaches, int Hits, int Questions)
    {
        public double Ratio => (Cost + 1.0) / (Known!.Cost + 1.0);
    }

    public static string Table(Arguments.Compare asked)
    {
        var known = asked.Reference is null ? [] : ReadReference(asked.Reference);
        var rows = Directory
            .EnumerateFiles(asked.Folder, "*.json")
            .Order(StringComparer.Ordinal)
            .Select(path => Measure(path, asked, known))
            .ToArray();
        var text = new StringBuilder();
        foreach (var row in rows)
        {
            text.Append(CultureInfo.InvariantCulture, $"{row.File.Name, -8} {row.File.Work.Batches.Count, 4} batches");
            text.Append(CultureInfo.InvariantCulture, $" {row.Breaches, 3} breaches  cost {row.Cost, 9}");
            text.AppendLine(
                row.Known is null
                    ? ""
                    : Figures($"best {row.Known.Cost, 9}  ratio {row.Ratio:0.000}  quotes {row.Hits}/{row.Questions}")
            );
        }

        foreach (
            var size in rows.Where(row => row.Known is not null)
                .GroupBy(row => row.File.Work.Batches.Count)
                .OrderBy(size => size.Key)
        )
        {
            var mean = Math.Exp(size.Average(row => Math.Log(row.Ratio)));
            text.Append(CultureInfo.InvariantCulture, $"{size.Key, 4} batches: (cost+1)/(best+1) {mean:0.000}");
            text.AppendLine(
                Figures($"  best known finishes {size.Sum(row => row.Hits)} of {size.Sum(row => row.Questions)}")
            );
        }

        return text.ToString();
    }

    private static string Figures(FormattableString figures) => "  " + figures.ToString(CultureInfo.InvariantCulture);

    private static Row Measure(string path, Arguments.Compare asked, Dictionary<string, Known> known)
    {
        var file = CaseFile.Read(path);
        var plan = Planner.Build(file.Work, Budget(asked));
        var best = known.GetValueOrDefault(file.Name);
        var questions = asked.Quotes is null ? [] : QuestionsOf(Path.Combine(asked.Quotes, Path.GetFileName(path)));
        var finishes = questions.Select(question => Finish(question.File, question.Batch, asked)).ToArray();
        var hits = best is null ? 0 : finishes.Zip(best.Finishes).Count(pair => pair.First <= pair.Second);
        return new(
            file,
            best,
            PlanCost.Of(file.Work, plan),
            PlanRules.Check(file.Work, plan).Count,
            hits,
            finishes.Length
        );
    }

    private static (CaseFile File, WorkBatch Batch)[] QuestionsOf(string path)
    {
        if (!File.Exists(path))
        {
            return [];
        }

        var file = CaseFile.Read(path);
        return [.. file.Asked.Select(batch => (file, batch))];
    }

    private static int? Finish(CaseFile file, WorkBatch batch, Arguments.Compare asked)
    {
        var plan = Planner.QuoteEarliest(file.Work, file.Promised, batch, Budget(asked));
        return plan is null ? null : batch.FinishDay(plan.Days[batch.Id]);
    }

    private static PlanBudget Budget(Arguments.Compare asked) =>
        PlanBudget.Within(asked.Time, TimeProvider.System, asked.Seed);

    private static Dictionary<string, Known> ReadReference(string path)
    {
        var lines = File.ReadAllLines(path);
        var names = lines[0].Split(',');
        var (name, cost, finishes) = (
            Array.IndexOf(names, "case"),
            Array.IndexOf(names, "best_cost"),
            Array.IndexOf(names, "quote_best_finish")
        );
        return lines
            .Skip(1)
            .Select(line => line.Split(','))
            .ToDictionary(
                cells => cells[name],
                cells => new Known(
                    long.Parse(cells[cost], CultureInfo.InvariantCulture),
                    [
                        .. cells[finishes]
                            .Split(';', StringSplitOptions.RemoveEmptyEntries)
                            .Select(day => int.Parse(day, CultureInfo.InvariantCulture)),
                    ]
                ),
                StringComparer.Ordinal
            );
    }
}
