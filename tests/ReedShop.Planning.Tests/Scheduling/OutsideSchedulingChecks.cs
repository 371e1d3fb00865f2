using ReedShop.Planning.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Scheduling.Given;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>
/// Published and recomputed instances put to the planner. A job of length p becomes p sittings that each fill a day,
/// with exactly one night between them; its head is the release day, its tail moves the due day.
/// </summary>
public sealed class OutsideSchedulingChecks
{
    private static readonly PlanBudget Search = new(4000);

    private static readonly WorkSitting[] X = [Sitting(60, 1), Sitting(40, 1), Sitting(30)];
    private static readonly WorkSitting[] Y = [Sitting(45, 2), Sitting(20, 1), Sitting(25, 1), Sitting(15)];

    private static WorkBatch Job(int number, int length, int release, int? finishBy) =>
        new($"J{number}", 0, release, finishBy - 1, [.. Enumerable.Repeat(Sitting(60, 1, 1), length - 1), Sitting(60)]);

    private static bool IsOnTime(Workload work)
    {
        var plan = Build(work, Search);
        return work.Batches.All(batch =>
            plan.Days.TryGetValue(batch.Id, out var days) && batch.FinishDay(days) <= batch.DueDay
        );
    }

    private static bool AllPlanned(int days, int minutes, params WorkSitting[][] batches)
    {
        var work = Evenings(days, minutes, [.. batches.Select((sittings, n) => Batch($"B{n}", null, sittings))]);
        return Build(work, Search).Days.Count == batches.Length;
    }

    /// <summary>Unsplittable sittings with nights between them: the last day of the earliest finish, computed independently.</summary>
    [Theory]
    [InlineData(90, 0, 1, 2)]
    [InlineData(90, 0, 2, 3)]
    [InlineData(90, 0, 3, 5)]
    [InlineData(120, 0, 3, 3)]
    [InlineData(80, 1, 1, 4)]
    [InlineData(80, 2, 1, 5)]
    public void Drying_days(int minutes, int ys, int xs, int lastDay)
    {
        WorkSitting[][] batches = [.. Enumerable.Repeat(Y, ys), .. Enumerable.Repeat(X, xs)];

        Assert.True(AllPlanned(lastDay + 1, minutes, batches));
        Assert.False(AllPlanned(lastDay, minutes, batches));
    }

    /// <summary>Carlier (1982), EJOR 11:42, the seven-job example with heads and tails: optimum 50.</summary>
    [Theory]
    [InlineData(50, true)]
    [InlineData(49, false)]
    public void Carliers_seven_jobs_take_fifty_days(int span, bool onTime)
    {
        int[] heads = [10, 13, 11, 20, 30, 0, 30];
        int[] lengths = [5, 6, 7, 4, 3, 6, 2];
        int[] tails = [7, 26, 24, 21, 8, 17, 0];
        var jobs = Enumerable.Range(0, 7).Select(j => Job(j, lengths[j], heads[j], span - tails[j]));

        Assert.Equal(onTime, IsOnTime(Evenings(60, 60, [.. jobs])));
    }

    /// <summary>
    /// Jackson (1955): earliest due first has the least maximum lateness, 10 for the jobs of Moore (1968) and for
    /// those of Pinedo, example 3.3.3; computed independently, data from memory.
    /// </summary>
    [Theory]
    [InlineData(new[] { 10, 6, 3, 1, 4, 8, 7, 6 }, new[] { 35, 20, 11, 8, 6, 25, 28, 9 })]
    [InlineData(new[] { 7, 8, 4, 6, 6 }, new[] { 9, 17, 18, 19, 21 })]
    public void The_least_maximum_lateness_is_ten(int[] lengths, int[] dueDays)
    {
        Workload Granting(int grace) =>
            Evenings(60, 60, [.. lengths.Select((length, j) => Job(j, length, 0, dueDays[j] + grace))]);

        Assert.True(IsOnTime(Granting(10)));
        Assert.False(IsOnTime(Granting(9)));
    }

    /// <summary>
    /// Moore (1968), Management Science 15(1), eight jobs, and Pinedo, example 3.3.3, five jobs: two are late; values
    /// from memory. Time runs backward here: a due day becomes a release, and a late job is one that finds no place.
    /// </summary>
    [Theory]
    [InlineData(new[] { 10, 6, 3, 1, 4, 8, 7, 6 }, new[] { 35, 20, 11, 8, 6, 25, 28, 9 })]
    [InlineData(new[] { 7, 8, 4, 6, 6 }, new[] { 9, 17, 18, 19, 21 })]
    public void All_but_two_jobs_can_be_on_time(int[] lengths, int[] dueDays)
    {
        var horizon = dueDays.Max();
        var work = Evenings(
            horizon,
            60,
            [.. lengths.Select((length, j) => Job(j, length, horizon - dueDays[j], null))]
        );

        Assert.Equal(lengths.Length - 2, Build(work, Search).Days.Count);
    }

    /// <summary>Five days of 120 minutes suffice where first fit by decreasing length takes six; computed independently.</summary>
    [Fact]
    public void Thirteen_sittings_fill_five_days_to_the_minute()
    {
        int[] minutes = [90, 90, 60, 60, 60, 45, 45, 30, 30, 30, 20, 20, 20];

        Assert.True(AllPlanned(5, 120, [.. minutes.Select(m => new[] { Sitting(m) })]));
    }
}
