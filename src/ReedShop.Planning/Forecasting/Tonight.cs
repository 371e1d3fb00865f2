using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Forecasting;

/// <summary>A sitting that may be done today, and what doing it is worth.</summary>
/// <param name="Batch">As in the workload.</param>
/// <param name="Minutes">Hands-on, with the set-ups that are not there yet.</param>
/// <param name="Gain">Promises that this keeps besides, on average: the sum of what the chances of all open promises gain.</param>
/// <param name="Gains">The promises whose chance changes enough to be told, with it before and then.</param>
public sealed record WorthDoing(
    string Batch,
    int Minutes,
    double Gain,
    IReadOnlyList<(string Order, double From, double To)> Gains
);

/// <summary>"I have 35 minutes tonight: what is worth doing?", answered by what the chances of the open promises gain.</summary>
public static class Tonight
{
    private const int Draws = 300;
    private const int MostSittings = 3;

    /// <summary>A change in one chance below this is not told by so few draws.</summary>
    private const double LeastTold = 0.02;

    /// <summary>
    /// The sittings to do today in so many minutes, the most helpful first, each chosen when those before it are done.
    /// Everything else waits for tomorrow, as it does when nothing is done today.
    /// </summary>
    public static IReadOnlyList<WorthDoing> Worth(ShopState state, int minutes, CancellationToken cancel = default)
    {
        var chosen = new List<WorthDoing>();
        var stands = Forecast.Of(Doing(state, minutes, chosen), Draws, cancel: cancel);
        while (chosen.Count < MostSittings)
        {
            var found = Possible(state, minutes, chosen)
                .Select(next =>
                    (Next: next, Then: Forecast.Of(Doing(state, minutes, [.. chosen, next]), Draws, cancel: cancel))
                )
                .Select(next => (Worth: Gained(state, next.Next, stands, next.Then), next.Then))
                .OrderByDescending(next => next.Worth.Gain)
                .ThenBy(next => next.Worth.Minutes)
                .FirstOrDefault();
            if (found.Worth is null)
            {
                break;
            }

            chosen.Add(found.Worth);
            stands = found.Then;
        }

        return chosen;
    }

    /// <summary>The least minutes in which some sitting can be done today; null where none can.</summary>
    public static int? LeastMinutes(ShopState state) =>
        Possible(state, int.MaxValue, []).Select(next => (int?)next.Minutes).Min();

    private static IEnumerable<WorthDoing> Possible(
        ShopState state,
        int minutes,
        IReadOnlyCollection<WorthDoing> chosen
    )
    {
        var done = chosen.Select(worth => worth.Batch).ToHashSet(StringComparer.Ordinal);
        var there = state
            .Work.Batches.Where(batch => done.Contains(batch.Id))
            .SelectMany(batch => batch.Sittings[0].SetUps);
        var ready = there.ToHashSet(StringComparer.Ordinal);
        var left = minutes - chosen.Sum(worth => worth.Minutes);
        return state
            .Work.Batches.Where(batch => batch.ReleaseDay <= 0 && !done.Contains(batch.Id) && HasDays(state, batch))
            .Select(batch => new WorthDoing(batch.Id, Minutes(state.Work, batch.Sittings[0], ready), 0, []))
            .Where(next => next.Minutes <= left);
    }

    private static bool HasDays(ShopState state, WorkBatch batch) => state.Plan.Days.ContainsKey(batch.Id);

    private static int Minutes(Workload work, WorkSitting sitting, HashSet<string> ready) =>
        sitting.Minutes + sitting.SetUps.Where(key => !ready.Contains(key)).Sum(key => work.SetUpMinutes[key]);

    /// <summary>The shop in which these sittings are done today, and no other.</summary>
    private static ShopState Doing(ShopState state, int minutes, IReadOnlyCollection<WorthDoing> chosen)
    {
        var today = chosen.Select(worth => worth.Batch).ToHashSet(StringComparer.Ordinal);
        return state with
        {
            Work = state.Work with
            {
                OpenMinutes = [today.Count == 0 ? 0 : minutes, .. state.Work.OpenMinutes.Skip(1)],
                Batches = [.. state.Work.Batches.Select(batch => today.Contains(batch.Id) ? batch : Waiting(batch))],
            },
            Plan = state.Plan with
            {
                Days = state.Plan.Days.ToDictionary(
                    days => days.Key,
                    days => today.Contains(days.Key) ? [0, .. days.Value.Skip(1)] : days.Value,
                    StringComparer.Ordinal
                ),
            },
        };
    }

    private static WorkBatch Waiting(WorkBatch batch) =>
        batch with
        {
            ReleaseDay = Math.Max(1, batch.ReleaseDay),
            Sittings =
            [
                batch.Sittings[0] with
                {
                    PinnedDay = batch.Sittings[0].PinnedDay == 0 ? null : batch.Sittings[0].PinnedDay,
                },
                .. batch.Sittings.Skip(1),
            ],
        };

    private static WorthDoing Gained(ShopState state, WorthDoing next, ShopOutlook before, ShopOutlook then)
    {
        var changes = state
            .Promises.Select(promise =>
                (promise.Order, From: before.Of(promise.Order).Chance, To: then.Of(promise.Order).Chance)
            )
            .ToArray();
        return next with
        {
            Gain = changes.Sum(change => change.To - change.From),
            Gains =
            [
                .. changes
                    .Where(change => Math.Abs(change.To - change.From) >= LeastTold)
                    .OrderByDescending(change => change.To - change.From),
            ],
        };
    }
}
