using ReedShop.Planning.Routes;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>
/// Batches and their records name the steps of their route by number, so once a model has batches its steps keep their
/// names and order. Minutes, set-ups and nights may change.
/// </summary>
public sealed class RoutesInUse(BatchStore batches)
{
    public async Task<Refusal?> Fault(string model, ReedRoute before, ReedRoute after, CancellationToken cancel) =>
        Shape(before).SequenceEqual(Shape(after)) || !await batches.HasAny(model, cancel)
            ? null
            : Refusal.Stage(
                "The model has batches, whose steps would no longer be those they were recorded as.",
                "other minutes, set-ups and nights; for other steps, another model"
            );

    private static IEnumerable<(string Leg, string Step, Check Check)> Shape(ReedRoute route) =>
        from leg in route.Legs
        from step in leg.Steps
        select (leg.Name, step.Name, step.Check);
}
