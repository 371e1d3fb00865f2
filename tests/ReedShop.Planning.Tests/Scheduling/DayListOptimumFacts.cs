using CsCheck;
using ReedShop.Planning.Scheduling;
using Xunit;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>Outside check: enumeration of every order, computed independently.</summary>
public sealed class DayListOptimumFacts
{
    [Theory]
    [InlineData(1, 3)]
    [InlineData(2, 6)]
    [InlineData(3, 7)]
    [InlineData(4, 7)]
    [InlineData(5, 7)]
    [InlineData(6, 7)]
    public void The_maker_is_done_as_soon_as_any_order_allows(int sittings, int mostSteps) =>
        Day.Small(sittings, mostSteps).Sample(AgreesWithEnumeration, iter: 40);

    private static void AgreesWithEnumeration(Day day)
    {
        var all = new DayListEnumeration(day.Hours, day.Sittings).Run();
        var list = day.List();
        Assert.Equal(all.LeastDone is not null, list.Carried.Count == 0);
        if (all.LeastDone is { } least)
        {
            Assert.Equal(least, Minute(list.Done!.Value));
            Assert.Equal(
                all.Best.Select(line => (day.Sittings[line.Rank].Batch, line.Step + 1, line.Start, line.Blanks)),
                list.Lines.Select(line => (line.Batch, line.StepNumber, Minute(line.Start), line.Blanks))
            );
        }
    }

    private static int Minute(TimeOnly time) => (time.Hour * 60) + time.Minute;
}
