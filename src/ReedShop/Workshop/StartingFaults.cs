using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>The first thing wrong with a starting state.</summary>
internal static class StartingFaults
{
    private const int MostCount = 10_000;

    public static Refusal? Of(BenchFacts facts, StartingWish wish) =>
        wish
            .Drawer.Select((reeds, at) => Stock(facts, $"drawer[{at}]", reeds.Model, reeds.Count))
            .Concat(wish.Shelf.Select((rested, at) => Stock(facts, $"shelf[{at}]", rested.Model, rested.Blanks)))
            .Concat(wish.Batches.Select((batch, at) => Batch(facts, $"batches[{at}]", batch)))
            .Concat(wish.Promises.Select((promise, at) => Promise(facts, $"promises[{at}]", promise)))
            .FirstOrDefault(fault => fault is not null);

    private static Refusal? Stock(BenchFacts facts, string field, string model, int count) =>
        Model(facts, field, model)
        ?? (
            count is < 0 or > MostCount
                ? Refusal.Invalid(field, "The count cannot be used.", $"0 to {MostCount}")
                : null
        );

    private static Refusal? Batch(BenchFacts facts, string field, StartingBatch batch)
    {
        if (Model(facts, field, batch.Model) is { } unknown)
        {
            return unknown;
        }

        var route = facts.Models[batch.Model].Route;
        var last = batch.Aim is null ? route.FirstFinishingStep - 1 : route.Steps.Count;
        return batch.NextStep < 1 || batch.NextStep > last
                ? Refusal.Invalid(
                    $"{field}.nextStep",
                    "The batch has no such step ahead.",
                    Words.Named(string.Join(", ", route.Steps.Take(last).Select(step => step.Name)), $"1 to {last}")
                )
            : batch.Blanks < 1 || batch.Blanks > facts.Shop.RackBlanks
                ? Refusal.Invalid($"{field}.blanks", "The blanks cannot be used.", $"1 to {facts.Shop.RackBlanks}")
            : batch.LastWorkedOn > facts.Today
                ? Refusal.Invalid(
                    $"{field}.lastWorkedOn",
                    "That day is still to come.",
                    $"up to {Words.DayToSend(facts.Today)}"
                )
            : null;
    }

    private static Refusal? Promise(BenchFacts facts, string field, StartingPromise promise) =>
        promise.Lines.Count == 0 ? Refusal.Invalid($"{field}.lines", "The promise has no lines.", "at least one")
        : promise.ShipBy <= facts.Today
            ? Refusal.Invalid(
                $"{field}.shipBy",
                "The promised day has passed.",
                $"after {Words.DayToSend(facts.Today)}"
            )
        : !EmailAddress.IsUsable(promise.BuyerEmail)
            ? Refusal.Invalid($"{field}.buyerEmail", "The e-mail address cannot be written to.", EmailAddress.Allowed)
        : PostalAddress.LineFault($"{field}.buyerName", promise.BuyerName)
            ?? promise.Address.Faults($"{field}.address").FirstOrDefault()
            ?? promise
                .Lines.Select(line =>
                    Model(facts, $"{field}.lines", line.Model)
                    ?? (
                        line.Quantity < 1
                            ? Refusal.Invalid($"{field}.lines", "The quantity cannot be used.", "1 or more")
                            : null
                    )
                )
                .FirstOrDefault(fault => fault is not null);

    private static Refusal? Model(BenchFacts facts, string field, string model) =>
        facts.Models.ContainsKey(model)
            ? null
            : Refusal.Invalid($"{field}.model", $"There is no model {model}.", string.Join(", ", facts.Models.Keys));
}
