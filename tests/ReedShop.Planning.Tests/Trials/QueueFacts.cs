using ReedShop.Lab.Trials;
using ReedShop.Planning.Scheduling;
using Xunit;

namespace ReedShop.Planning.Tests.Trials;

public sealed class QueueFacts(ITestOutputHelper output)
{
    private const int Customers = 400_000;

    /// <summary>Kelton, Sadowski and Zupick, Simulation with Arena, exercise 2.6.1.</summary>
    [Fact]
    public void One_server_with_exponential_times_has_the_means_of_theory()
    {
        var means = Measured(service => service.FirstExponential(1));
        Within(3, 4, means.TimeInLine);
        Within(3, 5, means.TimeInSystem);
        Within(3, 3.2, means.InLine);
        Within(3, 4, means.InSystem);
    }

    /// <summary>Wait in line = rho / (2 mu (1 - rho)), by Pollaczek and Khinchine.</summary>
    [Fact]
    public void One_server_with_fixed_times_waits_half_as_long()
    {
        var means = Measured(_ => 1);
        Within(3, 2, means.TimeInLine);
        Within(3, 1.6, means.InLine);
    }

    /// <summary>Two servers of rate 1 and arrivals of rate 1.2: by Erlang's formula 0.45 / 0.8 = 0.5625 wait in line.</summary>
    [Fact]
    public void Two_servers_share_one_line()
    {
        var means = Measured(service => service.FirstExponential(1), arrivalRate: 1.2, servers: 2);
        Within(3, 0.5625, means.TimeInLine);
    }

    /// <summary>Little 1961, computed by hand: 7/5 = 3/5 times 7/3.</summary>
    [Fact]
    public void Number_in_the_system_is_arrival_rate_times_time_in_it()
    {
        var means = QueueMeasures.Of([new(0, 0, 2), new(1, 2, 3), new(2, 3, 5)]);
        Assert.Equal(7 / 5.0, means.InSystem, 12);
        Assert.Equal(3 / 5.0, means.ArrivalRate, 12);
        Assert.Equal(7 / 3.0, means.TimeInSystem, 12);
        Assert.Equal(2 / 3.0, means.TimeInLine, 12);
    }

    /// <summary>
    /// One run of so many customers comes within 3 % of theory about nineteen times in twenty only, so four are averaged
    /// rather than a seed sought that does.
    /// </summary>
    private QueueMeasures Measured(Func<Dice, double> service, double arrivalRate = 0.8, int servers = 1)
    {
        var runs = Enumerable
            .Range(1, 4)
            .Select(seed => QueueMeasures.Of([.. Queue.Serve(Arrivals((ulong)seed, service, arrivalRate), servers)]))
            .ToArray();
        var means = new QueueMeasures(
            runs.Average(run => run.InSystem),
            runs.Average(run => run.InLine),
            runs.Average(run => run.ArrivalRate),
            runs.Average(run => run.TimeInSystem),
            runs.Average(run => run.TimeInLine)
        );
        output.WriteLine($"{means}");
        return means;
    }

    private static IEnumerable<(double, double)> Arrivals(ulong seed, Func<Dice, double> service, double rate)
    {
        var now = 0.0;
        for (var customer = 0UL; customer < Customers; customer++)
        {
            now += Draws.At(seed, What.Arrival, customer).FirstExponential(1 / rate);
            yield return (now, service(Draws.At(seed, What.Service, customer)));
        }
    }

    private static void Within(double percent, double expected, double actual) =>
        Assert.InRange(actual, expected * (1 - (percent / 100)), expected * (1 + (percent / 100)));
}
