using ReedShop.Platform.Ticks;
using ReedShop.Workshop;

namespace ReedShop.Reminders;

/// <summary>Plans again what an evening left undone, once the shop's day has changed.</summary>
public sealed class PlanSweep(Replans replans) : ITick
{
    public Task Run(CancellationToken cancel) => replans.CatchUp(cancel);
}
