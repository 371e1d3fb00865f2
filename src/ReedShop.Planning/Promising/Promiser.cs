using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Promising;

/// <summary>
/// Chooses the number of blanks and the ship date together. The chance of a date is the product of two parts: that the
/// reeds come out in number and strength (exact, from the predictive yields), and that damp nights add no more nights
/// than the bench days kept spare (a stated allowance). More spare days allow fewer blanks and the other way round, so
/// every number of spare days is tried and the earliest ship day wins, then the fewest blanks.
/// </summary>
public static class Promiser
{
    private const int MostSpareDays = 5;

    /// <summary>
    /// The earliest ship day whose chance reaches the confidence asked. Open batches make way for it within their own
    /// promises, but only where that ships sooner than among the days as they stand.
    /// </summary>
    public static PromiseAnswer Promise(ShopState state, PromiseRequest request)
    {
        var answer = Choose(state, request, null);
        return answer.Promise is { } standing && MakingWay.For(state, standing) is { } sooner ? sooner : answer;
    }

    /// <summary>
    /// The same with every open batch on its day: quickly told, and never sooner than what <see cref="Promise"/> finds.
    /// </summary>
    public static PromiseAnswer PromiseAmongStanding(ShopState state, PromiseRequest request) =>
        Choose(state, request, null);

    /// <summary>
    /// The cheapest way to ship by a day already named with at least the confidence asked, or why there is none.
    /// </summary>
    public static PromiseAnswer PromiseBy(ShopState state, PromiseRequest request, DateOnly shipBy)
    {
        var answer = Choose(state, request, shipBy);
        return
            answer.Promise is null
            && Choose(state, request, null).Promise is { } standing
            && MakingWay.For(state, standing, shipBy) is { } sooner
            ? sooner
            : answer;
    }

    private static PromiseAnswer Choose(ShopState state, PromiseRequest request, DateOnly? named)
    {
        if (request.Confidence > DueDay.MostChance)
        {
            return NoPromiseReason.ChanceTooHigh;
        }

        var answers = Enumerable
            .Range(0, MostSpareDays + 1)
            .Select(spare => WithSpareDays(state, request, spare, named))
            .ToArray();
        var best = answers
            .Select(answer => answer.Promise)
            .OfType<Promise>()
            .OrderBy(promise => promise.ShipBy)
            .ThenBy(promise => promise.Blanks)
            .ThenByDescending(promise => promise.Chance)
            .FirstOrDefault();
        return best is not null ? best : answers[^1].Reason!.Value;
    }

    private static PromiseAnswer WithSpareDays(ShopState state, PromiseRequest request, int spare, DateOnly? named)
    {
        var lines = MakeLines(state, request, spare, out var inTime, out var reason);
        if (reason is { } why)
        {
            return why;
        }

        var ready = Math.Max(request.OrderDay, lines.Max(line => line.FinishDay));
        var earliest = ShipDayAfter(state, ready, spare);
        if (earliest is not { } day || day > named)
        {
            return NoPromiseReason.NoEvenings;
        }

        var ships = named ?? day;
        var chance = DueDay.Chance(lines.Aggregate(1.0, (cover, line) => cover * line.Cover), inTime);
        return new Promise(
            ships,
            DueDay.Leaving(state.Bench, state.Today, ships, spare),
            request.Confidence,
            chance,
            spare,
            lines,
            Plan.Empty
        );
    }

    /// <summary>
    /// Serves the lines with the cover that, times the chance of dry enough nights, reaches the confidence. How many
    /// lines are to be made and how many nights lie ahead is known once they are, so it is asked again until neither grows.
    /// </summary>
    private static IReadOnlyList<PromisedLine> MakeLines(
        ShopState state,
        PromiseRequest request,
        int spare,
        out double inTime,
        out NoPromiseReason? reason
    )
    {
        var (ahead, toMake) = (new WayAhead(), 1);
        while (true)
        {
            inTime = Delays.ChanceWithin(ahead, spare, state.Hazards, state.Today);
            var lineCover = Math.Pow(request.Confidence / inTime, 1.0 / toMake);
            if (lineCover > 1)
            {
                reason = NoPromiseReason.ChanceTooHigh;
                return [];
            }

            (var lines, reason) = LineMaker.Make(state, request, lineCover);
            var longest = lines.Aggregate(ahead, (way, line) => WayAhead.Longest(way, line.Ahead));
            var making = lines.Count(line => line.IsMade);
            if (reason is not null || (longest == ahead && making <= toMake))
            {
                return lines;
            }

            (ahead, toMake) = (longest, Math.Max(toMake, making));
        }
    }

    /// <summary>The first ship day with so many open bench days between the planned finish and the parcel.</summary>
    internal static DateOnly? ShipDayAfter(ShopState state, int finishDay, int spare)
    {
        var ready = state.Today.AddDays(finishDay);
        var horizon = state.Today.AddDays(state.Work.OpenMinutes.Count);
        for (var kept = 0; kept < spare && ready < horizon; )
        {
            ready = ready.AddDays(1);
            kept += state.Bench.OpenMinutes(ready) > 0 ? 1 : 0;
        }

        return ready < horizon ? state.Ships.FirstAfter(ready) : null;
    }
}
