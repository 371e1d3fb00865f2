using System.Globalization;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Promising;

/// <summary>
/// Lets open batches move within their own promises, so that a new one may ship sooner: each ends no later than its due
/// day, or than it would have anyway. What was told for today stays, and a batch returns to its day where the new ones
/// leave it free.
/// </summary>
internal sealed class MakingWay
{
    /// <summary>Fixed, so that the same question gets the same answer; a buyer waits for it.</summary>
    private static readonly PlanBudget Budget = new(Rounds: 100);

    private readonly ShopState state;
    private readonly Promise standing;
    private readonly NewBatch[] newcomers;
    private readonly List<WorkBatch> batches;
    private Plan plan;

    private MakingWay(ShopState state, Promise standing)
    {
        this.state = state;
        this.standing = standing;
        newcomers = [.. standing.Lines.SelectMany(line => line.New)];
        plan = state.Plan;
        batches = [.. state.Work.Batches.Where(batch => plan.Days.ContainsKey(batch.Id)).Select(KeepingToday)];
    }

    /// <summary>
    /// The same promise with the new batches placed first, shipping by a named day or sooner than it would; null where
    /// the others cannot make way so far.
    /// </summary>
    public static Promise? For(ShopState state, Promise standing, DateOnly? named = null)
    {
        var latest = named ?? standing.ShipBy.AddDays(-1);
        var way = new MakingWay(state, standing);
        return
            way.newcomers.Length > 0
            && way.ShipDay(way.FinishAlone()) <= latest
            && way.FinishAmongOthers() is { } finish
            && way.ShipDay(finish) is { } ships
            && ships <= latest
            ? way.Promised(named ?? ships)
            : null;
    }

    private Workload Work => state.Work with { Batches = batches };

    private DateOnly? ShipDay(int? newFinish)
    {
        var others = standing.Lines.Where(line => line.New.Count == 0).Select(line => line.FinishDay);
        return newFinish is { } finish
            ? Promiser.ShipDayAfter(state, others.Append(finish).Max(), standing.SpareDays)
            : null;
    }

    /// <summary>No way that others make is wider than an empty bench.</summary>
    private int? FinishAlone()
    {
        var empty = state.Work with { Batches = [] };
        var finishes = newcomers.Select(
            (batch, n) =>
                Planner.PlaceEarliest(empty, Plan.Empty, WorkOf(batch, n, null)) is { } days
                    ? (batch with { Days = days }).FinishDay
                    : (int?)null
        );
        return finishes.Contains(null) ? null : finishes.Max();
    }

    /// <summary>When the last of the new batches is done, each as early as was found; null where one has no place.</summary>
    private int? FinishAmongOthers()
    {
        var last = 0;
        for (var n = 0; n < newcomers.Length; n++)
        {
            var newcomer = WorkOf(newcomers[n], n, null);
            if (Planner.QuoteEarliest(Work, plan, newcomer, Budget) is not { } found)
            {
                return null;
            }

            var finish = newcomer.FinishDay(found.Days[newcomer.Id]);
            (plan, last) = (found, Math.Max(last, finish));
            batches.Add(newcomer with { DueDay = finish });
        }

        return last;
    }

    private Promise Promised(DateOnly ships)
    {
        plan = Planner.PutBack(Work, plan, state.Plan);
        return standing with
        {
            ShipBy = ships,
            FinishBy = DueDay.Leaving(state.Bench, state.Today, ships, standing.SpareDays),
            Lines = Lines(),
            Moved = plan.Of(
                state.Plan.Days.Keys.Where(id => plan.Days.ContainsKey(id) && !plan.IsAsIn(state.Plan, id))
            ),
        };
    }

    private IReadOnlyList<PromisedLine> Lines()
    {
        var n = 0;
        return
        [
            .. standing.Lines.Select(line =>
                line with
                {
                    New = [.. line.New.Select(batch => Placed(batch, IdOf(n++)))],
                }
            ),
        ];
    }

    private NewBatch Placed(NewBatch batch, string id) =>
        batch with
        {
            Days = plan.Days[id],
            People = plan.People.GetValueOrDefault(id, []),
        };

    /// <summary>The list of today was told this morning: what is on it stays, and nothing joins it.</summary>
    private WorkBatch KeepingToday(WorkBatch batch) =>
        plan.Days[batch.Id][0] > 0
            ? batch with
            {
                ReleaseDay = Math.Max(1, batch.ReleaseDay),
            }
            : batch with
            {
                Sittings = [batch.Sittings[0] with { PinnedDay = 0 }, .. batch.Sittings.Skip(1)],
            };

    private static WorkBatch WorkOf(NewBatch batch, int number, int? dueDay) =>
        new(
            IdOf(number),
            batch.Blanks,
            batch.NotBeforeDay,
            dueDay,
            [.. batch.Sittings.Select(sitting => sitting.Work)]
        );

    private static string IdOf(int number) => string.Create(CultureInfo.InvariantCulture, $"new {number}");
}
