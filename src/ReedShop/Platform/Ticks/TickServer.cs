using Hangfire;
using Hangfire.AspNetCore;
using Microsoft.Extensions.Options;

namespace ReedShop.Platform.Ticks;

/// <summary>Starts every tick each minute (UTC: the shop's zone matters only to the work itself), and once right away.</summary>
internal sealed class TickServer(
    JobStorage storage,
    IEnumerable<TickName> ticks,
    IServiceScopeFactory scopes,
    IOptions<ReedShopOptions> options
) : IHostedService, IDisposable
{
    /// <summary>Enough that a mail server which does not answer holds up nothing else.</summary>
    private const int Workers = 4;

    private BackgroundJobServer? server;

    public Task StartAsync(CancellationToken cancellationToken)
    {
        if (!options.Value.Ticks)
        {
            return Task.CompletedTask;
        }

        var jobs = new RecurringJobManager(storage);
        foreach (var tick in ticks)
        {
            jobs.AddOrUpdate<TickRunner>(
                tick.Name,
                runner => runner.Run(tick.Name, CancellationToken.None),
                Cron.Minutely(),
                new RecurringJobOptions { TimeZone = TimeZoneInfo.Utc }
            );
            jobs.Trigger(tick.Name);
        }

        server = new BackgroundJobServer(
            new BackgroundJobServerOptions { WorkerCount = Workers, Activator = new AspNetCoreJobActivator(scopes) },
            storage
        );
        return Task.CompletedTask;
    }

    public Task StopAsync(CancellationToken cancellationToken)
    {
        server?.SendStop();
        return server?.WaitForShutdownAsync(cancellationToken) ?? Task.CompletedTask;
    }

    public void Dispose() => server?.Dispose();
}
