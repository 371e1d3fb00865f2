using ReedShop.Orders;
using ReedShop.Planning.Bench;
using ReedShop.Platform.Layout;
using ReedShop.Workshop;

namespace ReedShop.Calendar;

/// <summary>
/// The plan as entries of a calendar, by name. Buyers are told by the numbers of their orders alone: whoever keeps the
/// calendar that reads the feed has no business with their names.
/// </summary>
public sealed class PlanEntries
{
    /// <summary>Clock times are told this far ahead; what comes later is likely to be listed anew before its day.</summary>
    public const int DaysWithTimes = 14;

    private readonly BenchFacts facts;
    private readonly IReadOnlyDictionary<string, CalendarEntry> standing;
    private readonly Dictionary<string, Batch> byId;
    private readonly Dictionary<DateOnly, DayView> lists = [];

    private PlanEntries(BenchFacts facts, IReadOnlyDictionary<string, CalendarEntry> standing)
    {
        this.facts = facts;
        this.standing = standing;
        byId = facts.Batches.ToDictionary(batch => batch.Id, StringComparer.Ordinal);
    }

    /// <param name="standing">The entries as they were last told.</param>
    public static IReadOnlyList<PlanEntry> Of(BenchFacts facts, IReadOnlyDictionary<string, CalendarEntry> standing)
    {
        var plan = new PlanEntries(facts, standing);
        return
        [
            .. plan.Sittings(),
            .. facts.Orders.Select(Parcel),
            .. facts.OpenBatches.SelectMany(batch => NightEntries.Of(facts, batch)),
        ];
    }

    private IEnumerable<PlanEntry> Sittings() =>
        facts
            .Sittings.Where(sitting => byId.ContainsKey(sitting.BatchId))
            .Select(sitting => new PlanEntry(
                sitting.Id,
                sitting.BatchId,
                Kept(sitting) ?? Sitting(sitting, byId[sitting.BatchId])
            ));

    /// <summary>
    /// What stands in the calendar for today stays while the day goes by: listed again from now on, its hours would
    /// creep along with the clock.
    /// </summary>
    private EntryContent? Kept(PlannedSitting sitting) =>
        standing.GetValueOrDefault(sitting.Id) is { Stage: EntryStage.Planned, Content: { From: { } from } told }
        && told.FirstDay == facts.Today
        && sitting.Day == facts.Today
        && facts.Shop.Calendars()[Persons.NumberOf(facts.Shop, sitting)].HoursOn(facts.Today).Any(Holds(from, told.To))
            ? told
            : null;

    private static Func<OpenHours, bool> Holds(TimeOnly from, TimeOnly? to) =>
        open => open.From <= from && (to ?? from) <= open.To;

    private EntryContent Sitting(PlannedSitting sitting, Batch batch)
    {
        var lines = Lines(sitting);
        var steps = facts.Models[batch.Model].Route.Steps;
        var names = steps.Skip(sitting.FirstStep - 1).Take(sitting.LastStep - sitting.FirstStep + 1);
        var who = Persons.NameOf(facts.Shop, sitting) is { } helper ? $"{helper}: batch" : "Batch";
        var first = lines.Length > 0 ? lines.Min(line => line.Start) : (TimeOnly?)null;
        var last = lines.Length > 0 ? lines.Max(line => line.End) : (TimeOnly?)null;
        return new EntryContent(
            EntryKind.Sitting,
            sitting.Day,
            sitting.Day,
            first,
            last,
            $"{who} {batch.Number}: {string.Join(", ", names.Select(step => step.Name))}",
            string.Join('\n', [Blanks(sitting, batch), .. lines.SelectMany(Say)])
        );
    }

    private string Blanks(PlannedSitting sitting, Batch batch) =>
        $"{Words.Blanks(sitting.Blanks)}, {facts.Models[batch.Model].Name}"
        + $"{(batch.Aim is { } aim ? $" {aim}" : ", for the shelf")}";

    private static IEnumerable<string> Say(DayLineView line)
    {
        yield return $"{Words.Clock(line.Start)}-{Words.Clock(line.End)} {line.StepName}, {Words.Blanks(line.Blanks)}";
        if (line.SoakUntil is { } until)
        {
            yield return $"in the water until {Words.Clock(until)} at least";
        }

        if (line.Caution is { } caution)
        {
            yield return $"caution: {caution}";
        }
    }

    /// <summary>Its lines of the day list; none far ahead, or where the hours have no room for it.</summary>
    private DayLineView[] Lines(PlannedSitting sitting)
    {
        if (sitting.Day < facts.Today || sitting.Day >= facts.Today.AddDays(DaysWithTimes))
        {
            return [];
        }

        if (!lists.TryGetValue(sitting.Day, out var list))
        {
            lists[sitting.Day] = list = DayReader.Of(facts, sitting.Day);
        }

        return
        [
            .. list.AllLines.Where(line =>
                line.Batch == sitting.BatchId && sitting.FirstStep <= line.Step && line.Step <= sitting.LastStep
            ),
        ];
    }

    private static PlanEntry Parcel(Order order) =>
        new(
            $"order-{Words.Plain(order.Number)}",
            Words.Plain(order.Number),
            new EntryContent(
                EntryKind.Parcel,
                order.ShipBy,
                order.ShipBy,
                null,
                null,
                $"Parcel: order {Words.Plain(order.Number)}",
                $"{Words.Count(order.Lines.Sum(line => line.Quantity), "reed", "reeds")}, promised to ship by this day"
            )
        );
}
