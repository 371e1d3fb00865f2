using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>Whether the stored plan was made from today's facts, and the one way to bring it up to them.</summary>
public sealed class Replans(ShopStore shops, PlanStore plan, ShopClock clock, Bench bench)
{
    public async Task<bool> IsOutdated(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return false;
        }

        var key = await plan.StoredKey(cancel);
        return key.Day != clock.Today(shop.Zone) || key.FactsVersion != await plan.FactsVersion(cancel);
    }

    /// <summary>Plans again what an evening left undone, or what changed outside the bench; does nothing otherwise.</summary>
    public async Task CatchUp(CancellationToken cancel)
    {
        if (await IsOutdated(cancel))
        {
            await bench.CatchUp(cancel);
        }
    }
}

/// <summary>Replans in the background when facts changed without a plan of their own, such as the opening hours.</summary>
public sealed partial class ReplanWorker(
    IServiceScopeFactory scopes,
    FactsSignal signal,
    OutlookSignal outlooks,
    ILogger<ReplanWorker> log
) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        try
        {
            while (await signal.Wait(stoppingToken))
            {
                await CatchUp(stoppingToken);
                outlooks.Raise();
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The service is stopping: what is outdated is caught up at the next start.
        }
    }

    private async Task CatchUp(CancellationToken cancel)
    {
        await using var scope = scopes.CreateAsyncScope();
        try
        {
            await scope.ServiceProvider.GetRequiredService<Replans>().CatchUp(cancel);
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            Failed(fault);
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The plan could not be brought up to date")]
    private partial void Failed(Exception fault);
}
