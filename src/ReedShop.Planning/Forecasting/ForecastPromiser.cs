using System.Runtime.CompilerServices;
using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>
/// Promises by draws of the whole shop. The closed form of <see cref="Promiser"/> says how many blanks to start and on
/// which evenings; the draws then tell the earliest ship day that reaches the confidence asked, with all that the closed
/// form leaves out: weather that lasts, evenings lost, blanks worked again, extra batches for what is missing. The chance
/// that is stated comes from fresh draws: the ones that chose the day flatter it. Draws of the shop as it stands are kept, so
/// that a buyer who types gets an answer at once.
/// </summary>
public static class ForecastPromiser
{
    /// <summary>
    /// The closed form asks that the first batch be enough as often as the buyer asks. Where little is known no number of
    /// blanks is; a smaller one may still do with the help of an extra batch, on a later day.
    /// </summary>
    private static readonly double[] PartsOfConfidence = [1, 0.8, 0.6];

    /// <summary>Less than this in a chance is no loss: 300 draws do not tell it.</summary>
    private const double LeastHurt = 0.02;

    /// <summary>How much of the way to certainty the closed form is asked for where the draws find less than it says.</summary>
    private const double MoreConfidence = 0.4;

    private static readonly ConditionalWeakTable<Promise, ShopOutlook> Choosing = [];

    /// <summary>The earliest ship day whose chance reaches the confidence asked.</summary>
    public static PromiseAnswer Promise(ShopState state, PromiseRequest request) =>
        Find(
            request,
            asked => MakingWayUnhurt(state, asked),
            (promise, before) => Dated(state, request, promise, before)
        );

    /// <summary>The same with every open batch on its day: quickly told, where a date only has to be compared.</summary>
    /// <param name="fresh">As carefully as a promise that is told.</param>
    public static PromiseAnswer PromiseAmongStanding(ShopState state, PromiseRequest request, bool fresh = false) =>
        Find(
            request,
            asked => Promiser.PromiseAmongStanding(state, asked),
            (promise, before) => fresh ? Dated(state, request, promise, before) : Guessed(state, request, promise)
        );

    /// <summary>A promise for a ship day already named, with at least the confidence asked, or why there is none.</summary>
    public static PromiseAnswer PromiseBy(ShopState state, PromiseRequest request, DateOnly shipBy)
    {
        var earliest = Promise(state, request).Promise;
        return earliest?.ShipBy <= shipBy
            ? On(state, request, earliest, shipBy)
            : Find(
                request,
                asked =>
                    Promiser.PromiseBy(state, asked, shipBy) is var answer && HurtsOthers(state, asked, answer.Promise)
                        ? NoPromiseReason.NoEvenings
                        : answer,
                (promise, _) =>
                    On(state, request, promise, shipBy) is { } on && on.Chance >= request.Confidence ? on : null
            );
    }

    /// <summary>The chance that what was promised leaves by some other day.</summary>
    public static double ChanceBy(ShopState state, PromiseRequest request, Promise promise, DateOnly day) =>
        On(state, request, promise, day).Chance;

    private static PromiseAnswer MakingWayUnhurt(ShopState state, PromiseRequest request)
    {
        var answer = Promiser.Promise(state, request);
        return HurtsOthers(state, request, answer.Promise) ? Promiser.PromiseAmongStanding(state, request) : answer;
    }

    /// <summary>
    /// Whether open promises that make way lose by it: each may fall to what it was told with, and one that stands below
    /// that may fall no further. The same draws are compared, so that little luck is in the difference.
    /// </summary>
    private static bool HurtsOthers(ShopState state, PromiseRequest request, Promise? promise)
    {
        if (promise is null || promise.Moved.Days.Count == 0)
        {
            return false;
        }

        var before = StandingDraws.Of(state).Outlook;
        var after = DrawnChoosing(state, request, promise);
        return state.Promises.Any(other =>
            after.Of(other.Order).Chance < Math.Min(other.Stated, before.Of(other.Order).Chance) - LeastHurt
        );
    }

    private static PromiseAnswer Find(
        PromiseRequest request,
        Func<PromiseRequest, PromiseAnswer> choose,
        Func<Promise, DateOnly?, Promise?> judge
    )
    {
        PromiseAnswer? refused = null;
        foreach (var part in PartsOfConfidence)
        {
            var answer = choose(request with { Confidence = part * request.Confidence });
            if (answer.Promise is { } chosen && judge(chosen, null) is { } promise)
            {
                return promise.ShipBy <= chosen.ShipBy ? promise : Sooner(request, choose, judge, promise);
            }

            refused ??= answer.Promise is null ? answer : NoPromiseReason.ChanceTooHigh;
            if (request.Confidence > DueDay.MostChance)
            {
                break;
            }
        }

        return refused!;
    }

    /// <summary>
    /// The draws took a later ship day than the closed form, which often misses by a hair: a few blanks more may save the
    /// days to the next one.
    /// </summary>
    private static Promise Sooner(
        PromiseRequest request,
        Func<PromiseRequest, PromiseAnswer> choose,
        Func<Promise, DateOnly?, Promise?> judge,
        Promise promise
    )
    {
        var bolder = request.Confidence + (MoreConfidence * (DueDay.MostChance - request.Confidence));
        return
            choose(request with { Confidence = bolder }).Promise is { } chosen
            && chosen.ShipBy < promise.ShipBy
            && judge(chosen, promise.ShipBy) is { } other
            && other.ShipBy < promise.ShipBy
            ? other
            : promise;
    }

    /// <param name="before">A later day than this one is of no use, and its chance need not be told.</param>
    private static Promise? Dated(ShopState state, PromiseRequest request, Promise promise, DateOnly? before)
    {
        if (!promise.Lines.Any(line => line.IsMade))
        {
            return promise with { Confidence = request.Confidence };
        }

        if (
            Draws(state, request, promise, fresh: false).ShipDayFor(request.Confidence) is not { } chosen
            || chosen >= before
        )
        {
            return null;
        }

        var fresh = Fresh(state, request, promise);
        return fresh.ShipDayFor(request.Confidence) is { } day
            ? Stated(state, request, promise, fresh, day > chosen ? day : chosen)
            : null;
    }

    /// <summary>By the draws that chose the day: near enough to compare dates, too bold to be told.</summary>
    private static Promise? Guessed(ShopState state, PromiseRequest request, Promise promise)
    {
        if (!promise.Lines.Any(line => line.IsMade))
        {
            return promise;
        }

        var outlook = Draws(state, request, promise, fresh: false);
        return outlook.ShipDayFor(request.Confidence) is { } day ? Stated(state, request, promise, outlook, day) : null;
    }

    private static Promise On(ShopState state, PromiseRequest request, Promise promise, DateOnly day) =>
        promise.Lines.Any(line => line.IsMade)
            ? Stated(state, request, promise, Fresh(state, request, promise), day)
            : promise with
            {
                Confidence = request.Confidence,
                ShipBy = day,
            };

    private static PromiseOutlook Fresh(ShopState state, PromiseRequest request, Promise promise) =>
        Draws(state, request, promise, fresh: true);

    private static PromiseOutlook Draws(ShopState state, PromiseRequest request, Promise promise, bool fresh) =>
        StandingDraws.Suit(promise)
            ? StandingDraws.Of(state).Of(request, promise, fresh)
            : (fresh ? DrawnFresh(state, request, promise) : DrawnChoosing(state, request, promise)).Of(
                AskedOrder.Name,
                AskedOrder.ExactCover(promise)
            );

    private static ShopOutlook DrawnFresh(ShopState state, PromiseRequest request, Promise promise) =>
        Forecast.Of(AskedOrder.Taken(state, request, promise), Forecast.FreshDraws, Forecast.ChoosingDraws);

    /// <summary>What tells whether a promise hurts others tells its day as well.</summary>
    private static ShopOutlook DrawnChoosing(ShopState state, PromiseRequest request, Promise promise) =>
        Choosing.GetValue(promise, made => Forecast.Of(AskedOrder.Taken(state, request, made), Forecast.ChoosingDraws));

    private static Promise Stated(
        ShopState state,
        PromiseRequest request,
        Promise promise,
        PromiseOutlook outlook,
        DateOnly day
    )
    {
        var lastFinish = DueDay.Leaving(state.Bench, state.Today, day, 0);
        var finishBy = promise.FinishBy < lastFinish ? promise.FinishBy : lastFinish;
        return promise with
        {
            ShipBy = day,
            FinishBy = finishBy,
            Confidence = request.Confidence,
            Chance = Math.Min(DueDay.MostChance, outlook.ChanceBy(day)),
            FirstTry = FirstTry(state, promise, SpareDays(state, finishBy, day)),
        };
    }

    private static double FirstTry(ShopState state, Promise promise, int spareDays) =>
        DueDay.Chance(
            promise.Lines.Aggregate(1.0, (cover, line) => cover * line.Cover),
            Delays.ChanceWithin(
                promise.Lines.Select(line => line.Ahead).Aggregate(WayAhead.Longest),
                spareDays,
                state.Hazards,
                state.Today
            )
        );

    /// <summary>Open days after one and before the parcel goes.</summary>
    private static int SpareDays(ShopState state, DateOnly finishBy, DateOnly shipBy) =>
        Enumerable
            .Range(1, Math.Max(0, shipBy.DayNumber - finishBy.DayNumber - 1))
            .Count(ahead => state.Bench.OpenMinutes(finishBy.AddDays(ahead)) > 0);
}
