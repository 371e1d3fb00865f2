using Hangfire;

namespace ReedShop.Platform.Ticks;

/// <summary>Runs one tick by its name; a fault is logged and the next minute tries again.</summary>
[AutomaticRetry(Attempts = 0)]
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
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The tick {Tick} met a fault")]
    private partial void Failed(string tick, Exception fault);
}
