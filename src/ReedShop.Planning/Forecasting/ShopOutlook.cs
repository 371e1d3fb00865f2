using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>What the draws of a shop say of its open promises.</summary>
public sealed class ShopOutlook
{
    private readonly Dictionary<string, PromiseOutlook> promises;

    internal ShopOutlook(ShopState state, Arrival[] arrivals)
    {
        promises = state
            .Promises.Select((promise, number) => new PromiseOutlook(state, promise, Of(arrivals, number)))
            .ToDictionary(outlook => outlook.Order, StringComparer.Ordinal);

        Arrival[] Of(Arrival[] all, int number)
        {
            var count = state.Promises.Count;
            var own = new Arrival[all.Length / count];
            for (var draw = 0; draw < own.Length; draw++)
            {
                own[draw] = all[(draw * count) + number];
            }

            return own;
        }
    }

    public IReadOnlyCollection<PromiseOutlook> Promises => promises.Values;

    public PromiseOutlook Of(string order) => promises[order];

    /// <param name="cover">The chance that its own batches give all its reeds, where that is known exactly.</param>
    public PromiseOutlook Of(string order, double? cover) => promises[order].Covered(cover);
}

/// <summary>What the draws say of one promise.</summary>
public sealed class PromiseOutlook
{
    /// <summary>A chance computed twice in different order may differ in the last digits; that is no lower chance.</summary>
    private const double Rounding = 1e-9;

    private readonly ShopState state;
    private readonly Arrival[] arrivals;

    /// <summary>By draw; null where the reeds are not there within the horizon.</summary>
    private readonly DateOnly?[] shipDays;
    private readonly int lastDay;

    internal PromiseOutlook(ShopState state, OpenPromise promise, Arrival[] arrivals)
    {
        this.state = state;
        this.arrivals = arrivals;
        (Order, ShipBy, lastDay) = (promise.Order, promise.ShipBy, state.LastDayFor(promise.ShipBy));
        var leaves = new Dictionary<int, DateOnly?> { [Arrival.Never] = null };
        shipDays = Array.ConvertAll(arrivals, arrival => ShipDay(arrival.Day, leaves));
    }

    private PromiseOutlook(PromiseOutlook other, double? cover)
    {
        (state, arrivals, shipDays, lastDay) = (other.state, other.arrivals, other.shipDays, other.lastDay);
        (Order, ShipBy, Cover) = (other.Order, other.ShipBy, cover);
    }

    public string Order { get; }

    public DateOnly ShipBy { get; }

    /// <summary>The chance of keeping the promise.</summary>
    public double Chance => ChanceBy(ShipBy);

    /// <summary>
    /// Of the draws that miss the promise, the share of each cause, the largest first. Damp nights are told from lost
    /// evenings only where the forecast was asked for causes.
    /// </summary>
    public IReadOnlyList<(LateCause Cause, double Share)> Causes
    {
        get
        {
            var late = arrivals.Where((_, draw) => !(shipDays[draw] <= ShipBy)).ToArray();
            return
            [
                .. late.GroupBy(CauseOf)
                    .Select(cause => (cause.Key, Share: cause.Count() / (double)late.Length))
                    .OrderByDescending(cause => cause.Share)
                    .ThenBy(cause => cause.Key),
            ];
        }
    }

    private LateCause CauseOf(Arrival arrival) =>
        arrival switch
        {
            { LackedCane: true } => LateCause.Cane,
            { WasShort: true } => LateCause.Short,
            _ when arrival.DayIfDry <= lastDay => LateCause.DampNights,
            _ => LateCause.Evenings,
        };

    /// <summary>
    /// The chance that its own batches give all its reeds, where that is known exactly: the draws in which they do and
    /// those in which they do not then count for what they should, which tells the chance more sharply.
    /// </summary>
    public double? Cover { get; }

    /// <summary>The chance that the parcel leaves by a day.</summary>
    public double ChanceBy(DateOnly day)
    {
        var well = Enumerable.Range(0, arrivals.Length).Where(draw => !arrivals[draw].BatchFellShort).ToArray();
        var shorts = Enumerable.Range(0, arrivals.Length).Where(draw => arrivals[draw].BatchFellShort).ToArray();
        return Cover is { } cover && well.Length > 0 && shorts.Length > 0
            ? (cover * Share(well, day)) + ((1 - cover) * Share(shorts, day))
            : Share([.. well, .. shorts], day);
    }

    /// <summary>The earliest ship day by which the parcel leaves with a chance; null where none has it.</summary>
    public DateOnly? ShipDayFor(double chance) =>
        shipDays
            .OfType<DateOnly>()
            .Distinct()
            .Order()
            .Select(day => (DateOnly?)day)
            .FirstOrDefault(day => ChanceBy(day!.Value) >= chance - Rounding);

    internal PromiseOutlook Covered(double? cover) => new(this, cover);

    private double Share(int[] draws, DateOnly day) =>
        draws.Count(draw => shipDays[draw] <= day) / (double)draws.Length;

    private DateOnly? ShipDay(int day, Dictionary<int, DateOnly?> leaves)
    {
        if (!leaves.TryGetValue(day, out var ships))
        {
            leaves[day] = ships = state.Ships.FirstAfter(state.Today.AddDays(day));
        }

        return ships;
    }
}
