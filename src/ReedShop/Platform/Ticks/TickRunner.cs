using Hangfire;

namespace ReedShop.Platform.Ticks;

/// <summary>
/// Runs one tick by its name; the next minute tries again what met a fault. The fault is logged, and the job stands as
/// deleted with it on the page of the jobs: as failed it would never leave the memory, one each minute.
/// </summary>
[AutomaticRetry(Attempts = 0, OnAttemptsExceeded = AttemptsExceededAction.Delete, LogEvents = false)]
public sealed partial class TickRunner(IServiceProvider services, ILogger<TickRunner> log)
{
    public async Task Run(string name, CancellationToken cancel)
    {
        try
        {
            await services.GetRequiredKeyedService<ITick>(name).Run(cancel);
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            Failed(name, fault);
            throw;
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The tick {Tick} met a fault")]
    private partial void Failed(string tick, Exception fault);
}
