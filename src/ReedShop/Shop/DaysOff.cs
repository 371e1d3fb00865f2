using ReedShop.Planning.Bench;
using ReedShop.Platform;

namespace ReedShop.Shop;

/// <summary>One day, or days in a row, with the same other hours.</summary>
public sealed record DaysInRow(DateOnly First, DateOnly Last, OtherDay Day);

/// <summary>The coming days with other hours, and the plan's sittings on them.</summary>
public sealed record DaysOffView(
    DateOnly Today,
    int Version,
    IReadOnlyList<DaysInRow> Spans,
    IReadOnlyList<StandingSitting> Sittings
);

/// <summary>What was kept of a file.</summary>
public sealed record BusyKept(BusyLook Look, IReadOnlyList<DayChange> Days, DaysChanged Changed);

/// <summary>Reads, tries and keeps days with other hours: typed in, or taken from a calendar file.</summary>
public sealed class DaysOff(ShopStore shops, ShopCommands commands, ShopClock clock, SittingsStanding sittings)
{
    public async Task<Result<DaysOffView>> Read(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return ShopCommands.NoShopYet;
        }

        var today = clock.Today(shop.Zone);
        OtherDay[] coming = [.. shop.OtherDays.Where(day => day.Date >= today)];
        return new DaysOffView(today, shop.Version, Spans(coming), await Standing(coming.Select(d => d.Date), cancel));
    }

    /// <summary>What typed days would change, without changing it.</summary>
    public async Task<Result<IReadOnlyList<DayChange>>> Look(DaysWish wish, CancellationToken cancel) =>
        await shops.Find(cancel) is { } shop
            ? wish.Days(clock.Today(shop.Zone))
                .Then<IReadOnlyList<DayChange>>(days => DayChange.Of(shop, days).ToArray())
            : ShopCommands.NoShopYet;

    public Task<Result<DaysChanged>> Keep(DaysWish wish, VersionCheck check, CancellationToken cancel) =>
        commands.ChangeDays(
            (shop, today) => wish.Days(today).Then<DaysWanted>(days => Wanted(DayChange.Of(shop, days), "by hand")),
            check,
            cancel
        );

    /// <summary>What a file would change, without changing it.</summary>
    public async Task<Result<BusyLook>> Look(string file, string field, CancellationToken cancel) =>
        await shops.Find(cancel) is { } shop ? Look(shop, clock.Today(shop.Zone), file, field) : ShopCommands.NoShopYet;

    /// <summary>Keeps the busy times of a file, read again as it is looked at.</summary>
    /// <param name="leftOut">Keys of times that are not to be kept.</param>
    public async Task<Result<BusyKept>> Keep(
        string file,
        string field,
        IReadOnlySet<string> leftOut,
        VersionCheck check,
        CancellationToken cancel
    )
    {
        (BusyLook Look, IReadOnlyList<DayChange> Days)? kept = null;
        var changed = await commands.ChangeDays(
            (shop, today) =>
                Look(shop, today, file, field)
                    .Then<DaysWanted>(look =>
                    {
                        var changes = look.Days(shop, leftOut);
                        kept = (look, changes);
                        return Wanted(changes, "from a calendar file");
                    }),
            check,
            cancel
        );
        return changed.Then<BusyKept>(done => new BusyKept(kept!.Value.Look, kept.Value.Days, done));
    }

    /// <summary>Days go back to the hours of the week; those that had none of their own stay as they are.</summary>
    public Task<Result<DaysChanged>> Remove(
        DateOnly first,
        DateOnly last,
        VersionCheck check,
        CancellationToken cancel
    ) =>
        commands.ChangeDays(
            (shop, _) =>
                new DaysWanted(
                    [],
                    [.. shop.OtherDays.Select(day => day.Date).Where(date => first <= date && date <= last)],
                    $"usual hours again from {first:yyyy-MM-dd} to {last:yyyy-MM-dd}"
                ),
            check,
            cancel
        );

    /// <summary>The plan's sittings on these days.</summary>
    public async Task<IReadOnlyList<StandingSitting>> Standing(IEnumerable<DateOnly> dates, CancellationToken cancel)
    {
        var days = dates.ToHashSet();
        return days.Count == 0
            ? []
            : [.. (await sittings(days.Min(), days.Max(), cancel)).Where(sitting => days.Contains(sitting.Date))];
    }

    private static Result<BusyLook> Look(ShopSettings shop, DateOnly today, string file, string field)
    {
        var look = BusyFile.Read(file, shop.Zone, today, field).Then<BusyLook>(read => BusyLook.Of(read, shop, today));
        return look.Refusal is null && look.Value.Taking.Count > BusyLook.MostTaking
            ? Refusal.Invalid(
                field,
                $"The calendar takes hours of yours {look.Value.Taking.Count} times in the year ahead.",
                $"up to {BusyLook.MostTaking} times; daily ones are better said as other opening hours"
            )
            : look;
    }

    private static DaysWanted Wanted(IReadOnlyList<DayChange> changes, string how) =>
        new([.. changes.Select(change => change.After)], [], $"other hours on {changes.Count} days, {how}");

    private static List<DaysInRow> Spans(IEnumerable<OtherDay> days)
    {
        var spans = new List<DaysInRow>();
        foreach (var day in days)
        {
            if (
                spans is [.., var last]
                && last.Last.AddDays(1) == day.Date
                && last.Day.IsSame(day with { Date = last.First })
            )
            {
                spans[^1] = last with { Last = day.Date };
            }
            else
            {
                spans.Add(new DaysInRow(day.Date, day.Date, day));
            }
        }

        return spans;
    }
}
