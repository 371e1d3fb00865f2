using ReedShop.Orders;
using ReedShop.Planning.Scheduling;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>The maker wants a sitting on another day. A preview only tells what would follow.</summary>
public sealed record MoveWish(DateOnly Date, bool Preview = false);

public sealed record MovedSitting(string Sitting, string BatchNumber, DateOnly From, DateOnly To);

/// <summary>A promise whose state would change, in the words on time, to watch and late.</summary>
public sealed record ChangedPromise(int Order, DateOnly ShipBy, string From, string To);

/// <param name="WasPinned">The sitting had a day of the maker's own before.</param>
public sealed record MoveView(
    IReadOnlyList<MovedSitting> Moved,
    IReadOnlyList<ChangedPromise> Promises,
    bool Kept,
    bool WasPinned = false
);

/// <summary>Moves a sitting to a day of the maker's choice; the rest of its batch follows, the other batches stay.</summary>
public sealed class SittingMoves(Bench bench, FactsReader reader)
{
    public async Task<Result<MoveView>> Preview(string sittingId, DateOnly date, CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        return read.Then(facts => Move(facts, sittingId, date)).Then<MoveView>(view => view with { Kept = false });
    }

    public Task<Result<MoveView>> Keep(string sittingId, DateOnly date, VersionCheck check, CancellationToken cancel) =>
        Change(
            // The change being made has already raised the version by one.
            facts => check(facts.Version - 1) is { } stale ? stale : Move(facts, sittingId, date),
            sittingId,
            $"sitting moved to {date:yyyy-MM-dd}",
            cancel
        );

    /// <summary>The plan chooses the day again.</summary>
    public Task<Result<MoveView>> Release(string sittingId, VersionCheck check, CancellationToken cancel) =>
        Change(
            facts => check(facts.Version - 1) is { } stale ? stale : Release(facts, sittingId),
            sittingId,
            $"a sitting's day given back to the plan",
            cancel
        );

    /// <summary>Every sitting of a move on the day it had, as long as the bench still offers it.</summary>
    public Task<Result<MoveView>> TakeBack(LastMove last, CancellationToken cancel) =>
        Change(facts => TakeBack(facts, last), last.Sitting, $"move of a sitting taken back", cancel);

    private Task<Result<MoveView>> Change(
        Func<BenchFacts, Result<MoveView>> change,
        string sittingId,
        FormattableString said,
        CancellationToken cancel
    ) =>
        bench.Change(
            (services, facts, _) =>
            {
                // The plan it makes may cut the batch into other sittings.
                var subject = SubjectOf(facts, sittingId);
                var moved = change(facts);
                if (!moved.IsRefused)
                {
                    services
                        .GetRequiredService<JournalStore>()
                        .Write("owner", subject, FormattableString.Invariant(said));
                }

                return Task.FromResult(moved);
            },
            cancel
        );

    private static Result<MoveView> Release(BenchFacts facts, string sittingId)
    {
        if (facts.Sittings.FirstOrDefault(row => row.Id == sittingId) is not { } row)
        {
            return Refusal.Missing("such sitting in the plan");
        }

        var (before, daysBefore, wasPinned) = (BenchWork.Of(facts), DaysOf(facts), row.Pinned);
        row.Pinned = false;
        return Replace(facts, row.BatchId) is { } plan
            ? View(facts, before, daysBefore, plan, wasPinned)
            : new Refusal(RefusalKind.RuleBroken, "The batch finds no other days.", "date", "a day of your choice");
    }

    private static Result<MoveView> TakeBack(BenchFacts facts, LastMove last)
    {
        var rows = facts.Sittings.Where(row => last.Days.ContainsKey(row.Id)).ToArray();
        var moved = facts.Sittings.FirstOrDefault(row => row.Id == last.Sitting);
        var (before, daysBefore, wasPinned) = (BenchWork.Of(facts), DaysOf(facts), moved?.Pinned ?? false);
        if (
            moved is null
            || (last.To is { } to && moved.Day != to)
            || rows.Length < last.Days.Count
            || last.Days.Values.Any(day => day < facts.Today)
        )
        {
            return TakenMeanwhile;
        }

        foreach (var row in rows)
        {
            row.Day = last.Days[row.Id];
        }

        moved.Pinned = last.WasPinned;
        var now = BenchWork.Of(facts);
        if (PlanRules.Check(now.Work, now.Current).Any(breach => breach.Rule != PlanRule.EveryBatchPlanned))
        {
            return TakenMeanwhile;
        }

        Replanner.Store(facts, now, now.Current);
        return View(facts, before, daysBefore, now.Current, wasPinned);
    }

    private static string SubjectOf(BenchFacts facts, string sittingId) =>
        facts.Sittings.FirstOrDefault(row => row.Id == sittingId) is { } sitting
            ? $"batch {facts.Batches.Single(batch => batch.Id == sitting.BatchId).Number}"
            : "plan";

    private static Refusal TakenMeanwhile =>
        new(
            RefusalKind.RuleBroken,
            "The days it had are over or taken by now; nothing was moved.",
            "date",
            "a move to another day"
        );

    private static Dictionary<string, DateOnly> DaysOf(BenchFacts facts) =>
        facts.Sittings.ToDictionary(sitting => sitting.Id, sitting => sitting.Day);

    private static Result<MoveView> Move(BenchFacts facts, string sittingId, DateOnly date)
    {
        if (facts.Sittings.FirstOrDefault(row => row.Id == sittingId) is not { } row)
        {
            return Refusal.Missing("such sitting in the plan");
        }

        if (date < facts.Today || date >= facts.Today.AddDays(BenchWork.HorizonDays))
        {
            return Refusal.Invalid(
                "date",
                "The day cannot be planned.",
                $"from {Words.DayToSend(facts.Today)} to {Words.DayToSend(facts.Today.AddDays(BenchWork.HorizonDays - 1))}"
            );
        }

        var (before, daysBefore, wasPinned) = (BenchWork.Of(facts), DaysOf(facts), row.Pinned);
        (row.Pinned, row.Day) = (true, date);
        return Replace(facts, row.BatchId) is { } plan
            ? View(facts, before, daysBefore, plan, wasPinned)
            : Hindrance.Of(facts, row);
    }

    /// <summary>The batch placed afresh around its pinned day, written into the facts; null when that is impossible.</summary>
    private static Plan? Replace(BenchFacts facts, string batchId)
    {
        var bench = BenchWork.Of(facts);
        var others = bench.Current.Of(bench.Current.Days.Keys.Where(id => id != batchId));
        var batch = bench.Work.Batches.Single(work => work.Id == batchId);
        if (Planner.PlaceBest(bench.Work, others, batch) is not { } days)
        {
            return null;
        }

        var plan = Planner.NamePeople(bench.Work, others.With(batchId, days));
        Replanner.Store(facts, bench, plan);
        return plan;
    }

    private static MoveView View(
        BenchFacts facts,
        BenchWork before,
        Dictionary<string, DateOnly> daysBefore,
        Plan plan,
        bool wasPinned
    )
    {
        var after = BenchWork.Of(facts);
        var moved = facts
            .Sittings.Where(sitting => daysBefore.TryGetValue(sitting.Id, out var day) && day != sitting.Day)
            .Select(sitting => new MovedSitting(
                sitting.Id,
                facts.Batches.Single(batch => batch.Id == sitting.BatchId).Number,
                daysBefore[sitting.Id],
                sitting.Day
            ));
        var promises = facts
            .Orders.Select(order => new ChangedPromise(
                order.Number,
                order.ShipBy,
                State(facts, before, before.Current, order),
                State(facts, after, plan, order)
            ))
            .Where(change => change.From != change.To);
        return new MoveView([.. moved], [.. promises], true, wasPinned);
    }

    private static string State(BenchFacts facts, BenchWork bench, Plan plan, Order order) =>
        Punctuality.ByPlan(order, Finishing.Of(facts, bench, plan, order), facts.Shop.Ships, facts.Today);
}
