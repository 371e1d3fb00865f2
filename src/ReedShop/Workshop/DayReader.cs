using System.Text.Json.Serialization;
using NodaTime.Extensions;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>One line of a day: what to do, on which batch, from when to when.</summary>
/// <param name="SoakUntil">Least time in the water.</param>
public sealed record DayLineView(
    string Batch,
    string BatchNumber,
    string Model,
    int Step,
    string StepName,
    TimeOnly Start,
    TimeOnly End,
    int Blanks,
    int SetUpMinutes,
    TimeOnly? SoakUntil,
    string? Caution,
    bool Counted,
    bool Graded
);

public sealed record CarriedView(string BatchNumber, string StepName, int Blanks, string Reason);

/// <summary>What a helper does on the day, in their own hours.</summary>
public sealed record HelperDayView(
    string Helper,
    IReadOnlyList<OpenHours> Hours,
    IReadOnlyList<DayLineView> Lines,
    IReadOnlyList<CarriedView> Carried
);

/// <summary>The maker's day list with the hours of the day and the cautions that always hold, and those of the helpers.</summary>
public sealed record DayView(
    DateOnly Date,
    IReadOnlyList<OpenHours> Hours,
    IReadOnlyList<DayLineView> Lines,
    IReadOnlyList<CarriedView> Carried,
    IReadOnlyList<string> Cautions
)
{
    /// <summary>One for each helper of the shop.</summary>
    public IReadOnlyList<HelperDayView> Helpers { get; init; } = [];

    /// <summary>The lines of everybody.</summary>
    [JsonIgnore]
    public IEnumerable<DayLineView> AllLines => Lines.Concat(Helpers.SelectMany(helper => helper.Lines));

    [JsonIgnore]
    public IEnumerable<CarriedView> AllCarried => Carried.Concat(Helpers.SelectMany(helper => helper.Carried));
}

/// <summary>Makes the day list from the plan.</summary>
public sealed class DayReader(FactsReader reader)
{
    public async Task<Result<DayView>> Read(DateOnly? date, CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        return read.Then<DayView>(facts =>
            date is { } asked && ShownDays.Fault(facts, asked) is { } fault ? fault : Of(facts, date ?? facts.Today)
        );
    }

    public static DayView Of(BenchFacts facts, DateOnly date)
    {
        var (lines, carried) = ListOf(facts, date, 0, facts.Shop.Bench);
        return new DayView(date, facts.Shop.Bench.HoursOn(date), lines, carried, Cautions.All)
        {
            Helpers = [.. facts.Shop.Helpers.Select((helper, k) => HelperDay(facts, date, k + 1, helper))],
        };
    }

    private static HelperDayView HelperDay(BenchFacts facts, DateOnly date, int person, Helper helper)
    {
        var (lines, carried) = ListOf(facts, date, person, helper.Bench);
        return new HelperDayView(helper.Name, helper.Bench.HoursOn(date), lines, carried);
    }

    private static (IReadOnlyList<DayLineView> Lines, IReadOnlyList<CarriedView> Carried) ListOf(
        BenchFacts facts,
        DateOnly date,
        int person,
        BenchCalendar bench
    )
    {
        var byId = facts.Batches.ToDictionary(batch => batch.Id, StringComparer.Ordinal);
        var sittings = facts
            .Sittings.Where(sitting => sitting.Day == date && byId.ContainsKey(sitting.BatchId))
            .Where(sitting => Persons.NumberOf(facts.Shop, sitting) == person)
            .Select(sitting => Sitting(facts, byId[sitting.BatchId], sitting))
            .OrderBy(sitting => sitting.Priority)
            .ThenBy(sitting => byId[sitting.Batch].Run)
            .ToArray();
        var list = DayList.For(HoursLeft(facts, date, bench.HoursOn(date)), sittings);
        return (
            [.. list.Lines.Select(line => Line(facts, byId[line.Batch], line))],
            [.. list.Carried.Select(c => new CarriedView(byId[c.Batch].Number, c.StepName, c.Blanks, c.Reason))]
        );
    }

    /// <summary>On the day itself only the hours still ahead count.</summary>
    private static IReadOnlyList<OpenHours> HoursLeft(BenchFacts facts, DateOnly date, IReadOnlyList<OpenHours> hours)
    {
        if (date != facts.Today)
        {
            return hours;
        }

        var now = ShopClock.Local(facts.NowUtc, facts.Shop.Zone).TimeOfDay.ToTimeOnly();
        return
        [
            .. hours
                .Where(stretch => stretch.To > now)
                .Select(stretch =>
                    stretch.From < now ? stretch with { From = new TimeOnly(now.Hour, now.Minute) } : stretch
                ),
        ];
    }

    private static DaySitting Sitting(BenchFacts facts, Batch batch, PlannedSitting sitting)
    {
        var route = facts.Models[batch.Model].Route;
        var due = facts.PegsOn(batch.Root).Select(peg => (DateOnly?)facts.OrderOf(peg).ShipBy).Min();
        return new DaySitting(
            batch.Id,
            sitting.Blanks,
            [
                // The plan has cut its sittings to the most a day allows; cutting them again would tell the maker
                // another plan than the one the promises rest on.
                .. route
                    .Steps.Skip(sitting.FirstStep - 1)
                    .Take(sitting.LastStep - sitting.FirstStep + 1)
                    .Select(step => step with { MostPerDay = null }),
            ],
            sitting.FirstStep,
            NotBefore(facts, batch, route, sitting),
            due is { } day ? day.DayNumber - facts.Today.DayNumber : BenchWork.HorizonDays
        );
    }

    private static TimeOnly? NotBefore(BenchFacts facts, Batch batch, ReedRoute route, PlannedSitting sitting)
    {
        if (
            batch.LastEndedUtc is not { } ended
            || sitting.FirstStep != batch.NextStep
            || batch.NextStep == 1
            || route[batch.NextStep - 1].Then is not Follow.Dry dry
        )
        {
            return null;
        }

        var free = Night.EarliestStart(ended, dry.LeastHours);
        return Night.NotBefore(ShopClock.Local(free, facts.Shop.Zone).ToDateTimeUnspecified(), sitting.Day);
    }

    private static DayLineView Line(BenchFacts facts, Batch batch, DayLine line)
    {
        var step = facts.Models[batch.Model].Route[line.StepNumber];
        return new DayLineView(
            batch.Id,
            batch.Number,
            batch.Model,
            line.StepNumber,
            line.StepName,
            line.Start,
            line.End,
            line.Blanks,
            line.SetUpMinutes,
            line.SoakUntil,
            line.Caution,
            step.Check == Check.Counted,
            step.Check == Check.Graded
        );
    }
}
