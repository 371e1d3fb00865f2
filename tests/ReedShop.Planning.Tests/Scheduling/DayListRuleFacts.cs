using CsCheck;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using Xunit;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>What every day list keeps, whatever the day brings.</summary>
public sealed class DayListRuleFacts
{
    [Fact]
    public void One_pair_of_hands_does_one_line_at_a_time() =>
        Always(
            (_, list) =>
            {
                foreach (var (line, next) in list.Lines.Zip(list.Lines.Skip(1)))
                {
                    Assert.True(line.End <= next.Start);
                }
            }
        );

    [Fact]
    public void Every_line_lies_within_one_open_stretch() =>
        Always(
            (day, list) =>
                Assert.All(
                    list.Lines,
                    line => Assert.Contains(day.Hours, open => open.From <= line.Start && line.End <= open.To)
                )
        );

    [Fact]
    public void A_line_takes_its_set_up_and_its_blanks() =>
        Always(
            (day, list) =>
                Assert.All(
                    list.Lines,
                    line =>
                        Assert.Equal(
                            line.SetUpMinutes + Math.Ceiling(StepOf(day, line).SecondsPerBlank * line.Blanks / 60.0),
                            (line.End - line.Start).TotalMinutes
                        )
                )
        );

    [Fact]
    public void No_line_starts_before_its_night_is_over() =>
        Always(
            (day, list) =>
                Assert.All(
                    list.Lines,
                    line => Assert.True((SittingOf(day, line.Batch).NotBefore ?? TimeOnly.MinValue) <= line.Start)
                )
        );

    [Fact]
    public void A_step_begins_when_the_one_before_is_done_and_soaked() =>
        Always(
            (day, list) =>
            {
                foreach (var lines in list.Lines.GroupBy(line => line.Batch, StringComparer.Ordinal))
                {
                    foreach (var (line, next) in lines.Zip(lines.Skip(1)))
                    {
                        Assert.InRange(next.StepNumber, line.StepNumber, line.StepNumber + 1);
                        var soaks = next.StepNumber > line.StepNumber && StepOf(day, line).Then is Follow.Soak;
                        Assert.True((soaks ? line.SoakUntil!.Value : line.End) <= next.Start);
                    }
                }
            }
        );

    [Fact]
    public void Every_blank_is_worked_or_carried_at_every_step() =>
        Always(
            (day, list) =>
            {
                foreach (var sitting in day.Sittings)
                {
                    var coming = sitting.Blanks;
                    for (var number = 1; number <= sitting.Steps.Count; number++)
                    {
                        var worked = Worked(list, sitting.Batch, number);
                        Assert.Equal(coming, worked + Carried(list, sitting.Batch, number));
                        coming = worked;
                    }
                }
            }
        );

    [Fact]
    public void A_set_up_is_charged_on_the_first_line_that_needs_it_and_on_no_other() =>
        Always(
            (day, list) =>
            {
                foreach (var lines in list.Lines.GroupBy(line => StepOf(day, line).SetUp))
                {
                    Assert.Equal(lines.Key.Minutes, lines.First().SetUpMinutes);
                    Assert.All(lines.Skip(1), line => Assert.Equal(0, line.SetUpMinutes));
                }
            }
        );

    [Fact]
    public void No_step_is_done_more_than_its_most_per_day() =>
        Always(
            (day, list) =>
                Assert.All(
                    list.Lines.Where(line => StepOf(day, line).MostPerDay is not null),
                    line =>
                        Assert.InRange(
                            Worked(list, line.Batch, line.StepNumber),
                            1,
                            StepOf(day, line).MostPerDay!.Value
                        )
                )
        );

    [Fact]
    public void No_blank_stays_in_the_water_overnight() =>
        Always(
            (day, list) =>
            {
                foreach (var sitting in day.Sittings)
                {
                    for (var number = 1; number < sitting.Steps.Count; number++)
                    {
                        if (sitting.Steps[number - 1].Then is Follow.Soak)
                        {
                            Assert.Equal(0, Carried(list, sitting.Batch, number + 1));
                        }
                    }
                }
            }
        );

    [Fact]
    public void The_same_day_gives_the_same_list() =>
        Always(
            (day, list) =>
            {
                Assert.Equal(list.Lines, day.List().Lines);
                Assert.Equal(list.Carried, day.List().Carried);
            }
        );

    private static void Always(Action<Day, DayList> holds) =>
        Day.Any(mostSittings: 9).Sample(day => holds(day, day.List()), iter: 100);

    private static DaySitting SittingOf(Day day, string batch) =>
        day.Sittings.Single(sitting => sitting.Batch == batch);

    private static Step StepOf(Day day, DayLine line) => SittingOf(day, line.Batch).Steps[line.StepNumber - 1];

    private static int Worked(DayList list, string batch, int number) =>
        list.Lines.Where(line => line.Batch == batch && line.StepNumber == number).Sum(line => line.Blanks);

    private static int Carried(DayList list, string batch, int number) =>
        list
            .Carried.Where(carried => carried.Batch == batch && carried.StepNumber == number)
            .Sum(carried => carried.Blanks);
}
