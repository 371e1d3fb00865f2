using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using Xunit;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class DayListFacts
{
    private static readonly OpenHours[] Saturday = [Open("9:00", "14:00")];

    [Fact]
    public void Late_Friday()
    {
        var night = Night.EarliestStart(new DateTime(2027, 3, 5, 23, 40, 0), 12);
        var notBefore = Night.NotBefore(night, new DateOnly(2027, 3, 6));
        var late = new DaySitting("late", 24, [Work("thickness", "fine plate", 8, 6)], 4, notBefore, 1);
        var other = new DaySitting("other", 10, [Work("profile", "profiler", 10, 5)], 2, null, 2);

        var list = DayList.For(Saturday, [late, other]);

        Assert.Equal(At("11:40"), notBefore);
        Assert.Equal(
            [
                new DayLine("other", 2, "profile", At("9:00"), At("10:00"), 10, 10, null, null),
                new DayLine("late", 4, "thickness", At("11:40"), At("14:00"), 22, 8, null, null),
            ],
            list.Lines
        );
        Assert.Equal(
            [new CarriedBlanks("late", 4, "thickness", 2, "not before 11:40, and the bench closes at 14:00")],
            list.Carried
        );
    }

    [Fact]
    public void Other_work_is_done_while_blanks_soak()
    {
        Step[] soaking =
        [
            Work("wet", "bowl", 2, 1) with
            {
                Then = new Follow.Soak(30),
            },
            Work("flatten", "glass", 3, 2),
        ];
        var list = DayList.For(Saturday, [Ready("clip", Work("clip", "cutter", 5, 3)), Ready("wet", soaking)]);

        Assert.Equal(["wet 9:00-9:12", "clip 9:12-9:47", "flatten 9:47-10:10"], Told(list));
        Assert.Equal(At("9:42"), list.Lines[0].SoakUntil);
    }

    [Fact]
    public void A_soak_with_nothing_else_to_do_is_waited_for()
    {
        Step[] soaking =
        [
            Work("wet", "bowl", 2, 1) with
            {
                Then = new Follow.Soak(30),
            },
            Work("flatten", "glass", 3, 2),
        ];

        Assert.Equal(["wet 9:00-9:12", "flatten 9:42-10:05"], Told(DayList.For(Saturday, [Ready("one", soaking)])));
    }

    [Fact]
    public void A_plate_is_laid_out_once_and_its_work_kept_together()
    {
        var list = DayList.For(
            Saturday,
            [
                Ready("a", Work("side", "coarse plate", 5, 1)),
                Ready("b", Work("profile", "profiler", 7, 1)),
                Ready("c", Work("side", "coarse plate", 5, 1)),
            ]
        );

        Assert.Equal(["a", "c", "b"], list.Lines.Select(line => line.Batch));
        Assert.Equal([5, 0, 7], list.Lines.Select(line => line.SetUpMinutes));
        Assert.Equal(At("9:42"), list.Done);
    }

    [Fact]
    public void Of_equals_the_first_by_priority_is_done_first()
    {
        var side = Work("side", "coarse plate", 5, 1);
        var list = DayList.For(
            Saturday,
            [Ready("third", side) with { Priority = 2 }, Ready("first", side), Ready("second", side)]
        );

        Assert.Equal(["first", "second", "third"], list.Lines.Select(line => line.Batch));
    }

    [Fact]
    public void A_step_is_cut_at_a_blank_when_the_bench_closes_at_noon()
    {
        var list = DayList.For(
            [Open("14:00", "16:00"), Open("11:00", "12:00")],
            [Ready("a", Work("profile", "profiler", 8, 7))]
        );

        Assert.Equal(["profile 11:00-11:57", "profile 14:00-14:21"], Told(list));
        Assert.Equal([7, 3], list.Lines.Select(line => line.Blanks));
        Assert.Equal([8, 0], list.Lines.Select(line => line.SetUpMinutes));
    }

    [Fact]
    public void A_set_up_that_leaves_no_time_for_a_blank_waits_for_the_afternoon() =>
        Assert.Equal(
            ["profile 14:00-15:18"],
            Told(
                DayList.For(
                    [Open("11:50", "12:00"), Open("14:00", "16:00")],
                    [Ready("a", Work("profile", "profiler", 8, 7))]
                )
            )
        );

    [Fact]
    public void Blanks_beyond_the_most_per_day_are_carried()
    {
        var playIn = Work("play in", "chair", 0, 4) with { MostPerDay = 6 };
        var list = DayList.For(Saturday, [Ready("a", Work("clip", "cutter", 5, 1), playIn)]);

        Assert.Equal([10, 6], list.Lines.Select(line => line.Blanks));
        Assert.Equal([new CarriedBlanks("a", 2, "play in", 4, "at most 6 a day at play in")], list.Carried);
    }

    [Fact]
    public void Lips_tire_by_all_batches_together()
    {
        var playIn = Work("play in", "chair", 0, 4) with { MostPerDay = 12 };
        var list = DayList.For(Saturday, [Ready("a", playIn), Ready("b", playIn)]);

        Assert.Equal([("a", 10), ("b", 2)], list.Lines.Select(line => (line.Batch, line.Blanks)));
        Assert.Equal([("b", 8)], list.Carried.Select(carried => (carried.Batch, carried.Blanks)));
    }

    [Fact]
    public void Blanks_that_cannot_be_worked_after_their_soak_stay_dry()
    {
        Step[] steps =
        [
            Work("wet", "bowl", 0, 1) with
            {
                Then = new Follow.Soak(30),
            },
            Work("flatten", "glass", 0, 2) with
            {
                MostPerDay = 4,
            },
        ];

        var list = DayList.For(Saturday, [Ready("a", steps)]);

        Assert.Equal([4, 4], list.Lines.Select(line => line.Blanks));
        Assert.Equal([new CarriedBlanks("a", 1, "wet", 6, "at most 4 a day at flatten")], list.Carried);
    }

    [Fact]
    public void When_time_is_short_as_many_as_can_walk_the_whole_sitting_do_so()
    {
        var list = DayList.For(
            [Open("18:00", "19:00")],
            [Ready("a", Work("side", "coarse plate", 4, 4), Work("thickness", "fine plate", 6, 6))]
        );

        Assert.Equal(["side 18:00-18:24", "thickness 18:24-19:00"], Told(list));
        Assert.Equal([new CarriedBlanks("a", 1, "side", 5, "the bench closes at 19:00")], list.Carried);
    }

    [Fact]
    public void When_none_can_walk_the_whole_sitting_the_longest_part_is_done()
    {
        var list = DayList.For(
            [Open("18:00", "19:00")],
            [Ready("a", Work("side", "coarse plate", 0, 4), Work("profile", "profiler", 60, 1))]
        );

        Assert.Equal(["side 18:00-18:40"], Told(list));
        Assert.Equal([("profile", 10)], list.Carried.Select(carried => (carried.StepName, carried.Blanks)));
    }

    [Fact]
    public void When_time_is_short_the_first_by_priority_is_served()
    {
        var side = Work("side", "coarse plate", 0, 5);
        var list = DayList.For([Open("18:00", "19:00")], [Ready("b", side) with { Priority = 2 }, Ready("a", side)]);

        Assert.Equal([("a", 10), ("b", 2)], list.Lines.Select(line => (line.Batch, line.Blanks)));
        Assert.Equal([("b", 8)], list.Carried.Select(carried => (carried.Batch, carried.Blanks)));
    }

    [Fact]
    public void On_a_closed_day_everything_is_carried()
    {
        var list = DayList.For([], [Ready("a", Work("side", "coarse plate", 5, 1))]);

        Assert.Empty(list.Lines);
        Assert.Null(list.Done);
        Assert.Equal([new CarriedBlanks("a", 1, "side", 10, "the bench is closed")], list.Carried);
    }

    [Fact]
    public void A_line_carries_what_to_mind()
    {
        var sand = Work("side", "coarse plate", 5, 1) with { Caution = "cane dust: mask and extraction" };

        Assert.Equal("cane dust: mask and extraction", DayList.For(Saturday, [Ready("a", sand)]).Lines[0].Caution);
    }

    [Fact]
    public void A_night_that_is_over_before_the_day_begins_holds_nothing_back() =>
        Assert.Null(Night.NotBefore(new DateTime(2027, 3, 5, 23, 50, 0), new DateOnly(2027, 3, 6)));

    [Fact]
    public void A_night_that_is_not_over_on_the_day_carries_the_whole_sitting()
    {
        var notBefore = Night.NotBefore(new DateTime(2027, 3, 7, 11, 40, 0), new DateOnly(2027, 3, 6));
        var list = DayList.For(Saturday, [Ready("a", Work("side", "plate", 5, 1)) with { NotBefore = notBefore }]);

        Assert.Equal([new CarriedBlanks("a", 1, "side", 10, "the night is not over today")], list.Carried);
    }

    /// <summary>Lisbon's clocks skip an hour at 01:00 UTC on 28 March 2027 (rule of the EU; computed by hand).</summary>
    [Fact]
    public void In_the_night_the_clocks_go_forward_twelve_hours_end_an_hour_later_by_the_clock()
    {
        var endedUtc = new DateTime(2027, 3, 27, 23, 40, 0, DateTimeKind.Utc);
        var lisbonSummer = TimeSpan.FromHours(1);

        var local = Night.EarliestStart(endedUtc, 12) + lisbonSummer;

        Assert.Equal(At("12:40"), Night.NotBefore(local, new DateOnly(2027, 3, 28)));
    }

    private static DaySitting Ready(string batch, params Step[] steps) => new(batch, 10, steps, 1, null, 1);

    private static Step Work(string name, string key, int setUpMinutes, int minutesPerBlank) =>
        new(name, new SetUp(key, setUpMinutes), 60 * minutesPerBlank, new Follow.StraightOn());

    private static OpenHours Open(string from, string to) => new(At(from), At(to));

    private static TimeOnly At(string time) => TimeOnly.Parse(time, System.Globalization.CultureInfo.InvariantCulture);

    private static IEnumerable<string> Told(DayList list) =>
        list.Lines.Select(line => FormattableString.Invariant($"{line.StepName} {line.Start:H:mm}-{line.End:H:mm}"));
}
