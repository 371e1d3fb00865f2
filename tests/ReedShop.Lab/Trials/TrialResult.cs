using ReedShop.Planning.Promising;

namespace ReedShop.Lab.Trials;

/// <summary>One promise whose day has come.</summary>
/// <param name="OrderedOn">Day of the trial, from 0.</param>
/// <param name="PromisedDays">From the order to the promised ship day.</param>
/// <param name="ActualDays">To the parcel; for what never left, to the end of the trial.</param>
/// <param name="Month">Of the promised day, counted from the first.</param>
/// <param name="IsFromDrawer">All its reeds lay ready when it was ordered.</param>
/// <param name="Pit">See <see cref="Scores.Pit"/>.</param>
internal sealed record TrialPromise(
    int OrderedOn,
    double Asked,
    double Chance,
    bool Kept,
    int PromisedDays,
    int ActualDays,
    int Month,
    double Pit,
    bool CameUpShort,
    bool IsFromDrawer
)
{
    /// <summary>Day of the trial, from 0.</summary>
    public int PromisedDay => OrderedOn + PromisedDays;
}

/// <summary>What became of one shop under one way of promising.</summary>
internal sealed record TrialResult(
    IReadOnlyList<TrialPromise> Promises,
    IReadOnlyList<NoPromiseReason> Refused,
    int Declined,
    int BlanksStarted,
    int ReedsSold,
    int EveningsUsed,
    IReadOnlyList<Stay> Orders,
    IReadOnlyList<Stay> BenchWaits
)
{
    private const int MonthsPerYear = 12;

    public static TrialResult Of(ulong seed, Book book, DateOnly first, int days, int wishes)
    {
        var end = first.AddDays(days);
        return new TrialResult(
            [.. book.Orders.Where(order => order.ShipBy < end).Select(order => Judged(seed, order, first, end))],
            book.Refused,
            wishes - book.Refused.Count - book.Orders.Count,
            book.BlanksStarted,
            book.Orders.Where(order => order.ShippedOn is not null).Sum(order => order.Wish.Reeds),
            book.EveningsUsed,
            [.. book.Orders.Where(order => order.ShippedOn is not null).Select(order => Stay(order, first))],
            book.BenchWaits
        );
    }

    private static TrialPromise Judged(ulong seed, TrialOrder order, DateOnly first, DateOnly end)
    {
        var isKept = order.ShippedOn <= order.ShipBy;
        var share = Draws.At(seed, What.Pit, (ulong)order.Wish.Number).FirstBetween(0, 1);
        return new TrialPromise(
            order.OrderedOn.DayNumber - first.DayNumber,
            order.Request.Confidence,
            order.Chance,
            isKept,
            order.ShipBy.DayNumber - order.OrderedOn.DayNumber,
            (order.ShippedOn ?? end).DayNumber - order.OrderedOn.DayNumber,
            (MonthsPerYear * (order.ShipBy.Year - first.Year)) + order.ShipBy.Month - first.Month,
            Scores.Pit(order.Chance, isKept, share),
            order.CameUpShort,
            order.ReadyOn == order.OrderedOn
        );
    }

    private static Stay Stay(TrialOrder order, DateOnly first) =>
        new(
            order.OrderedOn.DayNumber - first.DayNumber,
            order.ReadyOn!.Value.DayNumber - first.DayNumber,
            order.ShippedOn!.Value.DayNumber - first.DayNumber
        );
}
