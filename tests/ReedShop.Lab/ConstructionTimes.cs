using System.Diagnostics;
using System.Text;
using ReedShop.Planning.Scheduling;
using static System.FormattableString;

namespace ReedShop.Lab;

/// <summary>Time of one construction with its justification, warm: the median of many, by case.</summary>
internal static class ConstructionTimes
{
    private const int Repeats = 60;

    public static string Table(string folder)
    {
        var text = new StringBuilder();
        foreach (var file in CaseFile.ReadAll(folder).OrderBy(file => file.Work.Batches.Count))
        {
            var table = new WorkTable(file.Work);
            var draft = new Draft(table, [.. table.Batches.Select(Aim.For)]);
            void Build()
            {
                draft.Clear();
                Construction.EarliestDueFirst(draft);
                Construction.Justify(draft);
            }

            Median(Build);
            text.AppendLine(Invariant($"{file.Name}, {file.Work.Batches.Count} batches: {Median(Build):0.000} ms"));
        }

        return text.ToString();
    }

    private static double Median(Action build)
    {
        var times = new double[Repeats];
        foreach (ref var time in times.AsSpan())
        {
            var began = Stopwatch.GetTimestamp();
            build();
            time = Stopwatch.GetElapsedTime(began).TotalMilliseconds;
        }

        Array.Sort(times);
        return times[Repeats / 2];
    }
}
