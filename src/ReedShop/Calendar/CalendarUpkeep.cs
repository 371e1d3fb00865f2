using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Ticks;
using ReedShop.Workshop;

namespace ReedShop.Calendar;

/// <summary>Brings the entries up to the plan once the plan has changed.</summary>
public sealed class CalendarUpkeep(
    CalendarStore calendar,
    FactsReader reader,
    PlanStore plan,
    BatchStore batches,
    OrderStore orders,
    ShopClock clock
) : ITick
{
    public async Task Run(CancellationToken cancel)
    {
        var key = await plan.StoredKey(cancel);
        if (
            await calendar.Find(cancel) is { IsOpen: true } told
            && (told.FactsVersion, told.PlanDay) != (key.FactsVersion, key.Day)
        )
        {
            await Follow(await calendar.FindForChange(cancel), cancel);
            // Whoever was faster has followed the same plan, or the next minute does.
            await calendar.TrySave(cancel);
        }
    }

    /// <summary>An outdated plan is not followed: what it moves next would be told twice.</summary>
    public async Task Follow(CalendarLink link, CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        if (read.IsRefused || !IsCurrent(read.Value))
        {
            return;
        }

        var facts = read.Value;
        var entries = await calendar.ForChange(Subjects(facts), cancel);
        var planned = PlanEntries.Of(facts, entries);
        foreach (var entry in planned)
        {
            Say(entries, entry);
        }

        var names = planned.Select(entry => entry.Name).ToHashSet(StringComparer.Ordinal);
        foreach (var gone in entries.Values.Where(e => e.Stage == EntryStage.Planned && !names.Contains(e.Name)))
        {
            await Close(gone, facts, cancel);
        }

        (link.FactsVersion, link.PlanDay) = (facts.Key.FactsVersion, facts.Key.Day);
        link.Version++;
    }

    private static bool IsCurrent(BenchFacts facts) =>
        facts.Key.FactsVersion == facts.Version && facts.Key.Day == facts.Today;

    private static string[] Subjects(BenchFacts facts) =>
        [.. facts.OpenBatches.Select(batch => batch.Id), .. facts.Orders.Select(order => Words.Plain(order.Number))];

    private void Say(Dictionary<string, CalendarEntry> entries, PlanEntry planned)
    {
        if (entries.TryGetValue(planned.Name, out var entry))
        {
            entry.Say(planned.Content, clock.NowUtc);
        }
        else
        {
            calendar.Add(CalendarEntry.Of(planned, clock.NowUtc));
        }
    }

    private async Task Close(CalendarEntry entry, BenchFacts facts, CancellationToken cancel)
    {
        if (entry.Content.FirstDay <= facts.Today && await CameToPass(entry, cancel))
        {
            entry.Stage = EntryStage.Past;
        }
        else
        {
            entry.Cancel(clock.NowUtc);
        }
    }

    private async Task<bool> CameToPass(CalendarEntry entry, CancellationToken cancel)
    {
        if (entry.Content.Kind != EntryKind.Parcel)
        {
            return (await batches.Find(entry.Subject, cancel))?.LastWorkedOn >= entry.Content.FirstDay;
        }

        var number = int.Parse(entry.Subject, System.Globalization.CultureInfo.InvariantCulture);
        return (await orders.Page(number + 1, 1, cancel)) is [{ Stage: OrderStage.Shipped }];
    }
}
