using ReedShop.Planning.Bench;

namespace ReedShop.Shop;

/// <summary>What becomes of one day.</summary>
/// <param name="Before">The maker's hours as they are.</param>
/// <param name="ParcelsStop">It is a ship day now, and would be none.</param>
public sealed record DayChange(IReadOnlyList<OpenHours> Before, OtherDay After, OtherDay? Replaces, bool ParcelsStop)
{
    public DateOnly Date => After.Date;

    /// <summary>Given days against the settings as they are, without those that are so already.</summary>
    public static IReadOnlyList<DayChange> Of(ShopSettings shop, IEnumerable<OtherDay> days)
    {
        var others = shop.OtherDays.ToDictionary(other => other.Date);
        var (bench, ships) = (shop.Bench, shop.Ships);
        return
        [
            .. from day in days
            orderby day.Date
            let replaces = others.GetValueOrDefault(day.Date)
            where replaces?.IsSame(day) != true
            select new DayChange(bench.HoursOn(day.Date), day, replaces, day.IsHoliday && ships.Leaves(day.Date)),
        ];
    }

    /// <summary>
    /// Days as busy times leave them. What is left of an evening stays open; only a whole day off stops parcels, and
    /// closes a day that is closed anyway as well, so that nobody proposes to open it. A day that loses nothing is not
    /// among them, so that the same times again change nothing.
    /// </summary>
    public static IReadOnlyList<DayChange> Of(ShopSettings shop, IReadOnlyCollection<BusyTime> busy, DateOnly today)
    {
        var others = shop.OtherDays.ToDictionary(other => other.Date);
        var bench = shop.Bench;
        var days =
            from time in busy
            from date in time.Days
            where today <= date && date <= today.AddDays(BusyFile.DaysAhead)
            group time by date into times
            let hours = bench.HoursOn(times.Key)
            let left = times.Aggregate(hours, (open, time) => time.LeftOf(times.Key, open))
            let before = others.GetValueOrDefault(times.Key)
            let isOff = times.Any(time => time.IsAllDay) || before?.IsHoliday == true
            where (isOff && before?.IsHoliday != true) || !left.SequenceEqual(hours)
            let takers = times.Where(time => time.IsAllDay || time.TakenOf(times.Key, hours).Count > 0)
            select new OtherDay(
                times.Key,
                left,
                DayReason.Joined(before?.Reason, takers.Select(time => time.Summary)),
                left.Count == 0 && !isOff
            );
        return Of(shop, days);
    }
}
