using System.Text;
using ReedShop.Planning.Scheduling;
using static System.FormattableString;

namespace ReedShop.Lab;

/// <summary>How often a quote finds the best finish known, and by how many days it misses, by size.</summary>
internal static class QuoteComparison
{
    private sealed record Answer(int Size, string Case, int Gap);

    public static string Table(Arguments.CompareQuotes asked)
    {
        var known = Reference.Read(asked.Reference);
        var answers = CaseFile.ReadAll(asked.Folder).SelectMany(file => Ask(file, known[file.Name], asked)).ToArray();
        var text = new StringBuilder();
        foreach (var one in answers.GroupBy(answer => answer.Case))
        {
            text.AppendLine(Line(one.Key, [.. one]));
        }

        foreach (var size in answers.GroupBy(answer => answer.Size).OrderBy(size => size.Key))
        {
            text.AppendLine(Line(Invariant($"{size.Key} batches"), [.. size]));
        }

        text.AppendLine(Line("up to 20 batches together", [.. answers.Where(answer => answer.Size <= 20)]));
        return text.ToString();
    }

    private static string Line(string name, Answer[] answers) =>
        answers.Length == 0
            ? ""
            : Invariant($"{name}: {answers.Count(answer => answer.Gap <= 0)} of {answers.Length} at the best known, ")
                + Invariant(
                    $"mean gap {answers.Average(a => Math.Max(0, a.Gap)):0.00} days, worst {answers.Max(a => a.Gap)}"
                );

    private static IEnumerable<Answer> Ask(CaseFile file, Reference known, Arguments.CompareQuotes asked)
    {
        Console.Error.WriteLine(file.Name);
        return from question in Enumerable.Range(0, file.Asked.Count)
            from seed in Enumerable.Range(1, asked.Seeds)
            let finish = Finish(file, file.Asked[question], asked.Effort.Budget((ulong)seed))
            select new Answer(file.Work.Batches.Count, file.Name, finish - known.Finishes[question]);
    }

    /// <summary>A quote that found nothing counts as the end of the horizon.</summary>
    private static int Finish(CaseFile file, WorkBatch batch, PlanBudget budget) =>
        Planner.QuoteEarliest(file.Work, file.Promised, batch, budget) is { } plan
            ? batch.FinishDay(plan.Days[batch.Id])
            : file.Work.OpenMinutes.Count;
}
