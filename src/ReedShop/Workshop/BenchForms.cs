using System.Globalization;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>A form at the bench that was refused, with what was typed.</summary>
/// <param name="Name">Which form of the batch: record, grades, split, nights or undo.</param>
public sealed record SentForm(string Batch, string Name, IFormCollection Typed, Refusal Refusal)
{
    public static SentForm? For(SentForm? sent, string batch, string name) =>
        sent is not null && sent.Batch == batch && sent.Name == name ? sent : null;
}

/// <summary>Reads what the maker counted. Kept may be left empty: then it is the rest.</summary>
public static class BenchForms
{
    /// <summary>Reeds land within a whole strength of their aim; the form offers no others.</summary>
    private const int QuartersAround = 4;

    public static string RejectField(int reason) => FormattableString.Invariant($"rejected-{reason}");

    public static string GradeField(Strength strength) => FormattableString.Invariant($"grade-{strength.Quarters}");

    public static IReadOnlyList<Strength> StrengthsAround(Strength aim, GradeSteps steps) =>
        [
            .. Enumerable
                .Range(-QuartersAround, (2 * QuartersAround) + 1)
                .Where(quarters => steps == GradeSteps.Quarter || quarters % 2 == 0)
                .Select(aim.QuartersAway)
                .Where(strength => strength is not null)
                .Select(strength => strength!.Value),
        ];

    public static Result<StepCounts> ReadCounts(IFormCollection form, int blanksIn)
    {
        var kept = form.Whole("kept");
        var minutes = form.Whole("minutes");
        var others = form.Wholes("again", "carried");
        var rejected = ReadRejected(form);
        var measured = Measuring.Parse(form.Text("measured"));
        if ((kept.Refusal ?? minutes.Refusal ?? others.Refusal ?? rejected.Refusal ?? measured.Refusal) is { } refusal)
        {
            return refusal;
        }

        var (again, carried) = (others.Value["again"], others.Value["carried"]);
        var rest = blanksIn - again - carried - rejected.Value.Sum(reject => reject.Count);
        return new StepCounts(kept.Value ?? rest, rejected.Value, again, carried, minutes.Value, measured.Value);
    }

    public static Result<GradeCounts> ReadGrades(IFormCollection form, Strength aim)
    {
        var strengths = StrengthsAround(aim, GradeSteps.Quarter);
        var grades = form.Wholes(strengths.Select(GradeField));
        var rejected = ReadRejected(form);
        return (grades.Refusal ?? rejected.Refusal) is { } refusal
            ? refusal
            : new GradeCounts(
                [
                    .. strengths
                        .Select(strength => new GradeCount(strength, grades.Value[GradeField(strength)]))
                        .Where(grade => grade.Count > 0),
                ],
                form.Text("final") == "yes",
                rejected.Value
            );
    }

    /// <summary>"5 5 4" or "5, 5, 4".</summary>
    public static Result<TraySizes> ReadTrays(IFormCollection form)
    {
        var parts = form.Text("trays").Split([' ', ',', '+'], StringSplitOptions.RemoveEmptyEntries);
        var sizes = new List<int>();
        foreach (var part in parts)
        {
            if (!int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var size))
            {
                return Refusal.Invalid("trays", $"“{part}” is not a number of blanks.", "numbers such as 5 5 4");
            }

            sizes.Add(size);
        }

        return new TraySizes(sizes);
    }

    public static Result<BatchWish> ReadStart(IFormCollection form)
    {
        var blanks = form.Whole("blanks");
        var aim = form.Text("aim");
        var strength = default(Strength);
        return blanks.Refusal is { } refusal ? refusal
            : aim.Length > 0 && !Strength.TryParse(aim, out strength)
                ? Refusal.Invalid("aim", "The aim cannot be used.", Strength.Allowed)
            : new BatchWish(
                form.Text("model"),
                blanks.Value ?? 0,
                aim.Length > 0 ? strength : null,
                form.Text("caneLot") is { Length: > 0 } lot ? lot : null,
                form.Text("fromShelf").Length > 0
            );
    }

    private static Result<IReadOnlyList<RejectCount>> ReadRejected(IFormCollection form)
    {
        var reasons = RejectCount.Reasons;
        var counts = form.Wholes(Enumerable.Range(0, reasons.Count).Select(RejectField));
        return counts.Then<IReadOnlyList<RejectCount>>(read =>
            reasons
                .Select((reason, index) => new RejectCount(reason, read[RejectField(index)]))
                .Where(reject => reject.Count > 0)
                .ToArray()
        );
    }
}
