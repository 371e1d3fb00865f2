using System.Globalization;
using System.Text;
using ReedShop.Workshop;

namespace ReedShop.Reminders;

/// <summary>The day list as a plain letter, to be read on a phone before breakfast.</summary>
public static class DayLetter
{
    public static string Title(DayView day) =>
        day.AllLines.Any()
            ? $"On the bench {Date(day)}: {Count(day.AllLines.Count(), "step")}, {Time(day.AllLines.Min(line => line.Start))} to {Time(day.AllLines.Max(line => line.End))}"
            : $"Nothing on the bench, {Date(day)}";

    public static string Text(DayView day, string shopName)
    {
        var text = new StringBuilder().Append(shopName).Append(", ").Append(Date(day)).Append("\n\n");
        if (!day.AllLines.Any())
        {
            text.Append("Nothing is planned for today.\n");
        }

        AppendLines(text, day.Helpers.Any(helper => helper.Lines.Count > 0) ? "You" : null, day.Lines);
        foreach (var helper in day.Helpers)
        {
            AppendLines(text, helper.Helper, helper.Lines);
        }

        AppendCarried(text, [.. day.AllCarried]);
        if (day.AllLines.Any())
        {
            text.Append('\n').AppendJoin('\n', day.Cautions).Append('\n');
        }

        return text.ToString();
    }

    /// <param name="name">Whose lines they are, where that has to be said.</param>
    private static void AppendLines(StringBuilder text, string? name, IReadOnlyList<DayLineView> lines)
    {
        if (name is not null && lines.Count > 0)
        {
            text.Append('\n').Append(name).Append(":\n");
        }

        foreach (var line in lines)
        {
            Append(text, line);
        }
    }

    private static void Append(StringBuilder text, DayLineView line)
    {
        text.Append(
            CultureInfo.InvariantCulture,
            $"{Time(line.Start)}-{Time(line.End)}  {line.BatchNumber}  {line.StepName}, {Count(line.Blanks, "blank")} ({line.Model})\n"
        );
        AppendNote(text, line.SetUpMinutes > 0 ? $"lay out first: {line.SetUpMinutes} min" : null);
        AppendNote(text, line.SoakUntil is { } until ? $"in the water until {Time(until)} at least" : null);
        AppendNote(text, line.Counted ? "count: kept, again, rejected" : null);
        AppendNote(text, line.Graded ? "grade: how many of each strength" : null);
        AppendNote(text, line.Caution is { } caution ? $"caution: {caution}" : null);
    }

    private static void AppendNote(StringBuilder text, string? note)
    {
        if (note is not null)
        {
            text.Append("             ").Append(note).Append('\n');
        }
    }

    private static void AppendCarried(StringBuilder text, IReadOnlyList<CarriedView> carried)
    {
        if (carried.Count > 0)
        {
            text.Append("\nNot today:\n");
        }

        foreach (var left in carried)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"{left.BatchNumber}  {left.StepName}, {Count(left.Blanks, "blank")}: {left.Reason}\n"
            );
        }
    }

    private static string Date(DayView day) => day.Date.ToString("dddd d MMMM yyyy", CultureInfo.InvariantCulture);

    private static string Time(TimeOnly time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);

    private static string Count(int count, string word) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {word}{(count == 1 ? "" : "s")}");
}
