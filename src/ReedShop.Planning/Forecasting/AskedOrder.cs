using System.Globalization;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Forecasting;

/// <summary>The shop as it would stand if a promise were taken.</summary>
internal static class AskedOrder
{
    /// <summary>The order that asks: no order of the shop is named so.</summary>
    public const string Name = "asked";

    public static ShopState Taken(ShopState state, PromiseRequest request, Promise promise)
    {
        var trays = promise.Lines.SelectMany(line => line.New).Select(Tray).ToArray();
        var due = promise.FinishBy.DayNumber - state.Today.DayNumber;
        return state with
        {
            Work = state.Work with
            {
                Batches = [.. state.Work.Batches, .. trays.Select(tray => WorkOf(tray.Tray, tray.Batch, due))],
            },
            Plan = PlanOf(state, promise, trays),
            Trays = [.. state.Trays, .. trays.Select(tray => tray.Tray)],
            Promises = [.. state.Promises.Append(Waiting(request, promise)).OrderBy(order => order.ShipBy)],
        };
    }

    /// <summary>
    /// The chance that its reeds come out without an extra batch. It is exact for one batch that serves nobody else; with
    /// more, the draws know better what they share.
    /// </summary>
    public static double? ExactCover(Promise promise) =>
        promise.Lines.Where(line => line.IsMade).ToArray() is [{ New.Count: 1 } line] ? line.Cover : null;

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
        }

        foreach (var (tray, batch) in trays)
        {
            days[tray.Id] = [.. batch.Days];
        }

        return new Plan(days) { People = people };
    }

    /// <summary>The reeds it waits for, shared among its batches as they will be when it is accepted.</summary>
    private static OpenPromise Waiting(PromiseRequest request, Promise promise)
    {
        var (number, pegs) = (0, new List<PeggedReeds>());
        foreach (var line in promise.Lines)
        {
            Strength[] accepted = [.. request.Accepted(line.Line)];
            if (line.FromBatch > 0)
            {
                pegs.Add(new PeggedReeds(line.BatchRoot, line.Line.Model, accepted, line.FromBatch));
            }

            foreach (var share in line.Shares())
            {
                pegs.Add(new PeggedReeds(IdOf(number++), line.Line.Model, accepted, share));
            }
        }

        return new OpenPromise(Name, promise.ShipBy, pegs);
    }

    private static string IdOf(int number) => string.Create(CultureInfo.InvariantCulture, $"asked {number}");
}
