using System.Globalization;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Forecasting;

/// <summary>The shop as it would stand if a promise were taken.</summary>
internal static class AskedOrder
{
    /// <summary>The order that asks: no order of the shop is named so.</summary>
    public const string Name = "asked";

    public static ShopState Taken(ShopState state, PromiseRequest request, Promise promise) =>
        Started(state, promise) with
        {
            Promises = [.. state.Promises.Append(Waiting(request, promise)).OrderBy(order => order.ShipBy)],
        };

    /// <summary>
    /// With the batches of the promise on their days, and those that make way on theirs; what it takes from drawer, shelf
    /// and cane is nobody else's.
    /// </summary>
    public static ShopState Started(ShopState state, Promise promise)
    {
        var trays = promise.Lines.SelectMany(line => line.New).Select(Tray).ToArray();
        var due = promise.FinishBy.DayNumber - state.Today.DayNumber;
        return state with
        {
            DrawerFree = DrawerLeft(state, promise),
            Models = state.Models.ToDictionary(
                model => model.Key,
                model => model.Value.Without([.. trays.Select(tray => tray.Batch).Where(b => b.Model == model.Key)]),
                StringComparer.Ordinal
            ),
            Work = state.Work with
            {
                Batches = [.. state.Work.Batches, .. trays.Select(tray => WorkOf(tray.Tray, tray.Batch, due))],
            },
            Plan = PlanOf(state, promise, trays),
            Trays = [.. state.Trays, .. trays.Select(tray => tray.Tray)],
        };
    }

    /// <summary>The order by itself, for draws that know the days of the others.</summary>
    public static ShopState Alone(ShopState state, PromiseRequest request, Promise promise)
    {
        var taken = Started(state, promise);
        var standing = state.Trays.Count;
        return taken with
        {
            Work = taken.Work with { Batches = [.. taken.Work.Batches.Skip(standing)] },
            Trays = [.. taken.Trays.Skip(standing)],
            Promises = [Waiting(request, promise)],
        };
    }

    /// <summary>
    /// The chance that its batches give all its reeds. It is exact for one batch that serves nobody else; with
    /// more, the draws know better what they share.
    /// </summary>
    public static double? ExactCover(Promise promise) =>
        promise.Lines.Where(line => line.IsMade).ToArray() is [{ New.Count: 1 } line] ? line.Cover : null;

    private static Dictionary<(string Model, Strength Strength), int> DrawerLeft(ShopState state, Promise promise)
    {
        var left = state.DrawerFree.ToDictionary();
        foreach (var line in promise.Lines)
        {
            foreach (var reeds in line.FromDrawer)
            {
                left[(line.Line.Model, reeds.Strength)] -= reeds.Count;
            }
        }

        return left;
    }

    private static (OpenTray Tray, NewBatch Batch) Tray(NewBatch batch, int number)
    {
        var id = IdOf(number);
        return (
            new OpenTray(id, id, batch.Model, batch.Aim, batch.CaneLot, batch.FirstStep, batch.Blanks, batch.Sittings),
            batch
        );
    }

    private static WorkBatch WorkOf(OpenTray tray, NewBatch batch, int due) =>
        new(tray.Id, tray.Blanks, batch.NotBeforeDay, due, [.. tray.Sittings.Select(sitting => sitting.Work)]);

    private static Plan PlanOf(ShopState state, Promise promise, (OpenTray Tray, NewBatch Batch)[] trays)
    {
        var days = new Dictionary<string, int[]>(state.Plan.Days, StringComparer.Ordinal);
        var people = new Dictionary<string, int[]>(state.Plan.People, StringComparer.Ordinal);
        foreach (var (id, moved) in promise.Moved.Days)
        {
            days[id] = moved;
            Name(id, promise.Moved.People.GetValueOrDefault(id, []));
        }

        foreach (var (tray, batch) in trays)
        {
            days[tray.Id] = [.. batch.Days];
            Name(tray.Id, batch.People);
        }

        return new Plan(days) { People = people };

        void Name(string id, IReadOnlyList<int> persons)
        {
            if (persons.Count > 0)
            {
                people[id] = [.. persons];
            }
        }
    }

    /// <summary>The reeds it waits for, shared among its batches as they will be when it is accepted.</summary>
    public static IEnumerable<PeggedReeds> Pegs(PromiseRequest request, Promise promise)
    {
        var number = 0;
        foreach (var line in promise.Lines)
        {
            Strength[] accepted = [.. request.Accepted(line.Line)];
            if (line.FromBatch > 0)
            {
                yield return new PeggedReeds(line.BatchRoot, line.Line.Model, accepted, line.FromBatch);
            }

            foreach (var share in line.Shares())
            {
                yield return new PeggedReeds(IdOf(number++), line.Line.Model, accepted, share);
            }
        }
    }

    private static OpenPromise Waiting(PromiseRequest request, Promise promise) =>
        new(Name, promise.ShipBy, [.. Pegs(request, promise)]);

    private static string IdOf(int number) => string.Create(CultureInfo.InvariantCulture, $"asked {number}");
}
