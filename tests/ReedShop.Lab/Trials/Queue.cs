namespace ReedShop.Lab.Trials;

/// <summary>One stay in a system: in line from its arrival, served from when it began until it left.</summary>
internal readonly record struct Stay(double Arrived, double Began, double Left);

/// <summary>A line in which whoever came first is served first, by so many servers.</summary>
internal static class Queue
{
    /// <param name="arrivals">In order of time.</param>
    public static IEnumerable<Stay> Serve(IEnumerable<(double Arrived, double Service)> arrivals, int servers)
    {
        var free = new PriorityQueue<int, double>(Enumerable.Range(0, servers).Select(server => (server, 0.0)));
        foreach (var (arrived, service) in arrivals)
        {
            free.TryPeek(out var server, out var freeFrom);
            var began = Math.Max(arrived, freeFrom);
            free.DequeueEnqueue(server, began + service);
            yield return new Stay(arrived, began, began + service);
        }
    }
}

/// <summary>Means over a run: number in the system and in line, arrivals for each unit of time, time there and in line.</summary>
internal readonly record struct QueueMeasures(
    double InSystem,
    double InLine,
    double ArrivalRate,
    double TimeInSystem,
    double TimeInLine
)
{
    /// <summary>
    /// Numbers are areas under the count over the list of events, times are means over stays, so that Little's law
    /// (1961) is found and not assumed. The run lasts from the first arrival to the last leave.
    /// </summary>
    public static QueueMeasures Of(IReadOnlyCollection<Stay> stays)
    {
        var start = stays.Min(stay => stay.Arrived);
        var end = stays.Max(stay => stay.Left);
        return new QueueMeasures(
            Area(stays.Select(stay => stay.Arrived), stays.Select(stay => stay.Left)) / (end - start),
            Area(stays.Select(stay => stay.Arrived), stays.Select(stay => stay.Began)) / (end - start),
            stays.Count / (end - start),
            stays.Average(stay => stay.Left - stay.Arrived),
            stays.Average(stay => stay.Began - stay.Arrived)
        );
    }

    private static double Area(IEnumerable<double> enters, IEnumerable<double> leaves)
    {
        var events = enters.Select(time => (time, 1)).Concat(leaves.Select(time => (time, -1))).Order().ToArray();
        var (area, count, last) = (0.0, 0, events[0].time);
        foreach (var (time, change) in events)
        {
            area += count * (time - last);
            (count, last) = (count + change, time);
        }

        return area;
    }
}
