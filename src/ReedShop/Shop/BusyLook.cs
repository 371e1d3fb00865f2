namespace ReedShop.Shop;

/// <summary>A busy time with the days it changes; by itself, whatever else is busy.</summary>
public sealed record BusyTaking(BusyTime Time, IReadOnlyList<DayChange> Days);

/// <summary>What a file of busy times would change in the shop as it is.</summary>
/// <param name="Taking">Times that take hours or parcels of the shop's away.</param>
/// <param name="Without">Times that take nothing away, or nothing that is not taken already.</param>
public sealed record BusyLook(
    BusyFile File,
    IReadOnlyList<BusyTaking> Taking,
    IReadOnlyList<BusyTime> Without,
    DateOnly Today
)
{
    /// <summary>More could not be looked through by anybody; a form carries no more ticks either.</summary>
    public const int MostTaking = 600;

    public static BusyLook Of(BusyFile file, ShopSettings shop, DateOnly today)
    {
        var all = file.Busy.Select(time => new BusyTaking(time, DayChange.Of(shop, [time], today))).ToArray();
        return new BusyLook(
            file,
            [.. all.Where(taking => taking.Days.Count > 0)],
            [.. all.Where(taking => taking.Days.Count == 0).Select(taking => taking.Time)],
            today
        );
    }

    /// <summary>The days as they would be with the times that are not left out.</summary>
    public IReadOnlyList<DayChange> Days(ShopSettings shop, IReadOnlySet<string> leftOut) =>
        DayChange.Of(shop, [.. Kept(leftOut)], Today);

    public IEnumerable<BusyTime> Kept(IReadOnlySet<string> leftOut) =>
        Taking.Select(taking => taking.Time).Where(time => !leftOut.Contains(time.Key));
}
