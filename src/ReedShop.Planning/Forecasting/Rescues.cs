using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Forecasting;

/// <summary>
/// What would help a promise: longer hours on a day, reeds made elsewhere from now on, another strength, a clip. Each is
/// drawn with the luck of the shop as it stands, so that little chance is in the difference.
/// </summary>
public sealed class Rescues
{
    private const int LookingDraws = 100;
    private const int Draws = 400;
    private const int ExtraMinutes = 60;
    private const int DaysLooked = 14;
    private const int DaysTold = 2;

    /// <summary>What raises a chance by less is no help: so few draws do not tell it.</summary>
    private const double LeastGain = 0.02;

    /// <summary>What a batch for reeds that are missing is sized for: one that is short again is no help.</summary>
    private const double Cover = 0.9;

    private static readonly PlanBudget Budget = new(Rounds: 50);
    private static readonly int[] Shortages = [1, 2, 4, 8];

    private readonly ShopState state;
    private readonly OpenPromise promise;
    private readonly CancellationToken cancel;
    private readonly ShopOutlook before;

    private Rescues(ShopState state, string order, CancellationToken cancel)
    {
        (this.state, this.cancel) = (state, cancel);
        promise = state.Promises.Single(open => open.Order == order);
        before = Drawn(state, Draws);
    }

    /// <summary>Everything found that helps the promise of an order, what helps most first.</summary>
    public static IReadOnlyList<Rescue> For(ShopState state, string order, CancellationToken cancel = default)
    {
        var rescues = new Rescues(state, order, cancel);
        return
        [
            .. rescues
                .Clips()
                .Concat(rescues.OtherStrengths())
                .Concat(rescues.MadeElsewhere())
                .Concat(rescues.LongerDays())
                .Where(rescue => rescue.Chance >= rescues.Chance + LeastGain)
                .OrderByDescending(rescue => rescue.Chance),
        ];
    }

    /// <summary>Reeds made elsewhere: by the promised day where they can be, else as early as they can.</summary>
    public static PromiseAnswer PromiseElsewhere(ShopState state, PromiseLine line, DateOnly shipBy)
    {
        var request = Request(line);
        var inTime = Promiser.PromiseBy(state, request, shipBy);
        return inTime.Promise is null ? Promiser.Promise(state, request) : inTime;
    }

    private static PromiseRequest Request(PromiseLine line) => new([line], Cover, 0);

    private double Chance => before.Of(promise.Order).Chance;

    /// <summary>Days on which the bench is closed stay the maker's own.</summary>
    private IEnumerable<Rescue> LongerDays()
    {
        var days = Math.Min(DaysLooked, promise.ShipBy.DayNumber - state.Today.DayNumber);
        return Enumerable
            .Range(BlankSource.Tomorrow, Math.Max(0, days - BlankSource.Tomorrow))
            .Where(day => state.Bench.OpenMinutes(state.Today.AddDays(day)) > 0)
            .Select(day => (Day: day, Longer: WithLonger(day)))
            .OrderByDescending(found => Drawn(found.Longer, LookingDraws).Of(promise.Order).Chance)
            .Take(DaysTold)
            .Select(found => (found.Day, After: Drawn(found.Longer, Draws)))
            .Select(found => new Rescue.LongerDay(
                found.Day,
                ExtraMinutes,
                found.After.Of(promise.Order).Chance,
                Lowers(found.After)
            ));
    }

    /// <summary>The nightly plan would use the hour, and so would the maker on a day when something went wrong.</summary>
    private ShopState WithLonger(int day)
    {
        int[] minutes = [.. state.Work.OpenMinutes];
        minutes[day] += ExtraMinutes;
        var work = state.Work with { OpenMinutes = minutes };
        return state with { Work = work, Plan = Planner.Replan(work, state.Plan, Budget, cancel) };
    }

    /// <summary>By what its reeds are to come from, the number to be made elsewhere that helps most.</summary>
    private IEnumerable<Rescue> MadeElsewhere() =>
        promise
            .Pegs.Select(peg =>
                Numbers(peg).Select(reeds => Elsewhere(peg, reeds)).OfType<Rescue.MadeElsewhere>().MaxBy(r => r.Chance)
            )
            .OfType<Rescue>();

    private static IEnumerable<int> Numbers(PeggedReeds peg) =>
        peg.Root is null ? [peg.Quantity] : Shortages.Where(reeds => reeds < peg.Quantity).Append(peg.Quantity);

    private Rescue.MadeElsewhere? Elsewhere(PeggedReeds peg, int reeds)
    {
        var line = peg.Wanted(reeds);
        var made = PromiseElsewhere(state, line, promise.ShipBy).Promise;
        if (made is null || (made.Lines[0].BatchRoot is { } root && root == peg.Root))
        {
            return null;
        }

        var elsewhere = AskedOrder.Pegs(Request(line), made);
        var after = Drawn(With(AskedOrder.Started(state, made), peg, reeds, elsewhere), Draws);
        return new(peg.Root, line, made, after.Of(promise.Order).Chance, Lowers(after));
    }

    private IEnumerable<Rescue> OtherStrengths() =>
        from line in promise.Pegs.DistinctBy(peg => (peg.Model, peg.Accepted[0]))
        from quarters in new[] { -1, 1, -2, 2 }
        let also = line.Accepted[0].QuartersAway(quarters)
        where also is not null && !line.Accepted.Contains(also.Value)
        select Taking(line, also.Value);

    /// <summary>What lies in the drawer of it serves the order at once, the rest as it comes.</summary>
    private Rescue.OtherStrength Taking(PeggedReeds line, Strength also)
    {
        var drawer = state.DrawerFree.ToDictionary();
        var free = drawer.GetValueOrDefault((line.Model, also));
        var pegs = new List<PeggedReeds>();
        foreach (var peg in promise.Pegs)
        {
            var isOfLine = peg.Model == line.Model && peg.Accepted[0] == line.Accepted[0];
            var served = isOfLine ? Math.Min(free, peg.Quantity) : 0;
            free -= served;
            pegs.Add(
                peg with
                {
                    Quantity = peg.Quantity - served,
                    Accepted = isOfLine ? [.. peg.Accepted, also] : peg.Accepted,
                }
            );
        }

        drawer[(line.Model, also)] = free;
        var after = Drawn(With(state with { DrawerFree = drawer }, pegs.Where(peg => peg.Quantity > 0)), Draws);
        return new(line.Model, line.Accepted[0], also, after.Of(promise.Order).Chance, Lowers(after));
    }

    /// <summary>Where enough do not come up, the promise stands as before.</summary>
    private IEnumerable<Rescue> Clips() =>
        from peg in promise.Pegs
        let softer = peg.Accepted[0].QuartersAway(-1)
        where softer is not null
        let free = state.DrawerFree.GetValueOrDefault((peg.Model, softer.Value))
        where free >= peg.Quantity
        let enough = 1 - new BetaBinomial(state.ClipChance, 0).Cdf(peg.Quantity - 1, free)
        let clipped = state with
        {
            DrawerFree = Without(peg.Model, softer.Value),
        }
        let after = Drawn(With(clipped, promise.Pegs.Where(other => other != peg)), Draws)
        select new Rescue.Clip(
            peg.Model,
            peg.Accepted[0],
            peg.Quantity,
            free,
            enough,
            (enough * after.Of(promise.Order).Chance) + ((1 - enough) * Chance),
            Lowers(after)
        );

    private Dictionary<(string Model, Strength Strength), int> Without(string model, Strength strength) =>
        new(state.DrawerFree) { [(model, strength)] = 0 };

    private ShopState With(ShopState started, PeggedReeds peg, int reeds, IEnumerable<PeggedReeds> elsewhere) =>
        With(
            started,
            promise
                .Pegs.Select(other => other == peg ? peg with { Quantity = peg.Quantity - reeds } : other)
                .Where(left => left.Quantity > 0)
                .Concat(elsewhere)
        );

    private ShopState With(ShopState changed, IEnumerable<PeggedReeds> pegs) =>
        changed with
        {
            Promises = [.. state.Promises.Select(open => open == promise ? open with { Pegs = [.. pegs] } : open)],
        };

    private IReadOnlyList<LoweredPromise> Lowers(ShopOutlook after) =>
        [
            .. state
                .Promises.Where(other => other != promise)
                .Select(other => new LoweredPromise(
                    other.Order,
                    before.Of(other.Order).Chance,
                    after.Of(other.Order).Chance
                ))
                .Where(lowered => lowered.To < lowered.From - LeastGain),
        ];

    private ShopOutlook Drawn(ShopState shop, int draws) => Forecast.Of(shop, draws, cancel: cancel);
}
