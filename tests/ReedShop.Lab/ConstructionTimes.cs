using System.Diagnostics;
using System.Text;
using ReedShop.Planning.Scheduling;
using static System.FormattableString;

namespace ReedShop.Lab;

/// <summary>Time of one construction with its justification, warm: the median of many, by case.</summary>
internal static class ConstructionTimes
{
    private const int Repeats = 60;

    /// <summary>Long enough for the runtime to compile what is called often a second time.</summary>
    private static readonly TimeSpan WarmUp = TimeSpan.FromMilliseconds(400);

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

            for (var began = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(began) < WarmUp; )
            {
                Build();
            }

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
