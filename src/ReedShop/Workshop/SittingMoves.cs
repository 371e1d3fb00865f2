using ReedShop.Orders;
using ReedShop.Planning.Scheduling;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>The maker wants a sitting on another day. A preview only tells what would follow.</summary>
public sealed record MoveWish(DateOnly Date, bool Preview = false);

public sealed record MovedSitting(string Sitting, string BatchNumber, DateOnly From, DateOnly To);

/// <summary>A promise whose state would change, in the words on time, to watch and late.</summary>
public sealed record ChangedPromise(int Order, DateOnly ShipBy, string From, string To);

public sealed record MoveView(IReadOnlyList<MovedSitting> Moved, IReadOnlyList<ChangedPromise> Promises, bool Kept);

/// <summary>Moves a sitting to a day of the maker's choice; the rest of its batch follows, the other batches stay.</summary>
public sealed class SittingMoves(Bench bench, FactsReader reader)
{
    public async Task<Result<MoveView>> Preview(string sittingId, DateOnly date, CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        return read.Then(facts => Move(facts, sittingId, date)).Then<MoveView>(view => view with { Kept = false });
    }

    public Task<Result<MoveView>> Keep(string sittingId, DateOnly date, VersionCheck check, CancellationToken cancel) =>
        bench.Change(
            (services, facts, _) =>
            {
                // The change being made has already raised the version by one.
                var moved = check(facts.Version - 1) is { } stale ? stale : Move(facts, sittingId, date);
                if (!moved.IsRefused)
                {
                    services
                        .GetRequiredService<JournalStore>()
                        .Write("owner", "plan", $"sitting moved to {date:yyyy-MM-dd}");
                }

                return Task.FromResult(moved);
            },
            cancel
        );

    private static Result<MoveView> Move(BenchFacts facts, string sittingId, DateOnly date)
    {
        if (facts.Sittings.FirstOrDefault(row => row.Id == sittingId) is not { } row)
        {
            return Refusal.Missing("such sitting in the plan");
        }

        if (date < facts.Today || date >= facts.Today.AddDays(BenchWork.HorizonDays))
        {
            return Refusal.Invalid("date", "The day cannot be planned.", $"from {facts.Today:yyyy-MM-dd} on");
        }

        var before = BenchWork.Of(facts);
        var daysBefore = facts.Sittings.ToDictionary(sitting => sitting.Id, sitting => sitting.Day);
        (row.Pinned, row.Day) = (true, date);
        return Replace(facts, row.BatchId) is { } plan
            ? View(facts, before, daysBefore, plan)
            : new Refusal(
                RefusalKind.RuleBroken,
                "On that day the batch finds no place: the bench is closed or full, the rack is full, or a night is missing.",
                "date",
                "a day with open minutes left, after the nights of the sitting before"
            );
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

    private static MoveView View(BenchFacts facts, BenchWork before, Dictionary<string, DateOnly> daysBefore, Plan plan)
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
        return new MoveView([.. moved], [.. promises], true);
    }

    private static string State(BenchFacts facts, BenchWork bench, Plan plan, Order order) =>
        Punctuality.ByPlan(order, Finishing.Of(facts, bench, plan, order), facts.Shop.Ships, facts.Today);
}
