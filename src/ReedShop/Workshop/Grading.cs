using ReedShop.Planning.Routes;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>
/// Finished reeds sorted into strengths. Provisional grades, off the profile, are only noted; final ones, after playing
/// in, go to the drawer and serve the orders.
/// </summary>
public sealed record GradeCounts(
    IReadOnlyList<GradeCount> Grades,
    bool Final,
    IReadOnlyList<RejectCount>? Rejected = null
);

public sealed class Grading(BatchStore batches, Recording recording, JournalStore journal)
{
    public async Task<Result<GradeRecord>> Grade(
        BenchFacts facts,
        Batch batch,
        GradeCounts counts,
        CancellationToken cancel
    )
    {
        var grades = await batches.Grades(batch.Id, cancel);
        if (counts.Final && grades.SingleOrDefault(grade => grade.Final) is { } first)
        {
            return counts
                .Grades.Where(g => g.Count > 0)
                .OrderBy(g => g.Strength)
                .SequenceEqual(first.Grades.OrderBy(g => g.Strength))
                ? first
                : new Refusal(
                    RefusalKind.KeyReused,
                    "The batch was graded with other counts.",
                    "grades",
                    "the same grades again; what lies in the drawer is mended by counting it"
                );
        }

        return Fault(facts, batch, counts) is { } fault ? fault
            : counts.Final ? WriteFinal(facts, batch, counts)
            : Note(facts, batch, counts);
    }

    private GradeRecord WriteFinal(BenchFacts facts, Batch batch, GradeCounts counts)
    {
        var record = Note(facts, batch, counts);
        var kept = counts.Grades.Sum(grade => grade.Count);
        foreach (var grade in counts.Grades.Where(grade => grade.Count > 0))
        {
            facts.MoveDrawer(batch.Model, grade.Strength, grade.Count, $"batch {batch.Number} graded");
        }

        // Pegs are served before the counts are checked for a shortage, so that only reeds truly missing are made again.
        Pegging.ServeFromDrawer(facts, batch.Root);
        Pegging.ServeFromDrawer(facts, Peg.NoBatch);
        Pegging.ServeShort(facts, batch.Model);
        recording.Write(facts, batch, new StepCounts(kept, counts.Rejected ?? []));
        return record;
    }

    private GradeRecord Note(BenchFacts facts, Batch batch, GradeCounts counts)
    {
        var record = new GradeRecord
        {
            BatchId = batch.Id,
            Root = batch.Root,
            Model = batch.Model,
            CaneLot = batch.CaneLot,
            Aim = batch.Aim!.Value,
            Day = facts.Today,
            Final = counts.Final,
            Grades = [.. counts.Grades.Where(grade => grade.Count > 0).OrderBy(grade => grade.Strength)],
        };
        batches.Add(record);
        var words = string.Join(", ", record.Grades.Select(grade => $"{grade.Count} of {grade.Strength}"));
        journal.Write("owner", $"batch {batch.Number}", $"{(counts.Final ? "final" : "provisional")} grades: {words}");
        return record;
    }

    private static Refusal? Fault(BenchFacts facts, Batch batch, GradeCounts counts)
    {
        var route = facts.Models[batch.Model].Route;
        var rejected = counts.Rejected?.Sum(reject => (long)reject.Count) ?? 0;
        var sum = counts.Grades.Sum(grade => (long)grade.Count);
        if (batch.Aim is null || batch.Stage != BatchStage.OnBench || batch.NextStep < route.FirstFinishingStep)
        {
            return Refusal.Stage($"Batch {batch.Number} has no reeds to grade.", "a batch in its finishing leg");
        }

        if (counts.Final && route[batch.NextStep].Check != Check.Graded)
        {
            return Refusal.Stage(
                $"Batch {batch.Number} still has steps before its final grades.",
                Words.Named(
                    $"{route[batch.NextStep].Name} first; or note provisional grades",
                    $"step {batch.NextStep} first, or \"final\": false"
                )
            );
        }

        if (
            counts.Grades.Any(grade => grade.Count < 0)
            || counts.Grades.DistinctBy(g => g.Strength).Count() != counts.Grades.Count
        )
        {
            return Refusal.Invalid("grades", "The grades cannot be used.", "each strength once, counts of 0 or more");
        }

        return counts.Final ? Recording.CountFault(batch.Blanks, sum, counts.Rejected ?? [])
            : sum + rejected <= batch.Blanks ? null
            : Refusal.Invalid("grades", "There are fewer reeds than grades.", $"at most {batch.Blanks} in all");
    }
}
