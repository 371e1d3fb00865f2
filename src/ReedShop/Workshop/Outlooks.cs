using System.Threading.Channels;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>What is done when a forecast is there.</summary>
public interface IForecastFollower
{
    Task Follow(BenchFacts facts, ShopState state, IReadOnlyCollection<PromiseOutlook> drawn, CancellationToken cancel);
}

/// <summary>Keeps the chances of the open promises up to the plan.</summary>
public sealed class Outlooks(
    FactsReader reader,
    OutlookStore store,
    OutlookMark mark,
    IEnumerable<IForecastFollower> followers
)
{
    /// <summary>Draws the shop anew where facts or day have changed since; does nothing otherwise.</summary>
    public async Task Renew(CancellationToken cancel)
    {
        await mark.Turn.WaitAsync(cancel);
        try
        {
            await RenewInTurn(cancel);
        }
        finally
        {
            mark.Turn.Release();
        }
    }

    private async Task RenewInTurn(CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        if (read.IsRefused || mark.Is(read.Value.Version, read.Value.Today))
        {
            return;
        }

        var facts = read.Value;
        var state = ShopStates.Of(facts);
        var promises =
            state.Promises.Count == 0
                ? []
                : await Task.Run(() => Forecast.Of(state, causes: true, cancel: cancel).Promises, cancel);
        await store.Replace(promises.Select(promise => Outlook.Of(promise, facts.Version, facts.Today)), cancel);
        foreach (var follower in followers)
        {
            await follower.Follow(facts, state, promises, cancel);
        }

        mark.Set(facts.Version, facts.Today);
    }
}

/// <summary>The key of the last forecast, so that nothing is drawn twice, and the turn of whoever draws.</summary>
public sealed class OutlookMark : IDisposable
{
    public SemaphoreSlim Turn { get; } = new(1, 1);

    public void Dispose() => Turn.Dispose();

    private volatile Tuple<long, DateOnly>? last;

    public bool Is(long version, DateOnly today) => last is { } key && key.Item1 == version && key.Item2 == today;

    public void Set(long version, DateOnly today) => last = Tuple.Create(version, today);
}

/// <summary>Asks for a forecast. One that is under way is of no use any more once facts have changed, and is left.</summary>
public sealed class OutlookSignal
{
    private readonly Channel<bool> raised = Channel.CreateBounded<bool>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite }
    );
    private readonly Lock turn = new();
    private CancellationTokenSource? underWay;

    /// <summary>First the old one is left, then the new one asked for: the other way round the new one might be left too.</summary>
    public void Raise()
    {
        lock (turn)
        {
            underWay?.Cancel();
            raised.Writer.TryWrite(true);
        }
    }

    /// <summary>Waits until somebody asks; the token is cancelled when somebody asks again.</summary>
    public async Task<CancellationToken> Wait(CancellationToken cancel)
    {
        await raised.Reader.ReadAsync(cancel);
        lock (turn)
        {
            underWay?.Dispose();
            underWay = CancellationTokenSource.CreateLinkedTokenSource(cancel);
            return underWay.Token;
        }
    }
}

/// <summary>Draws the shop in the background, once the bench has been quiet for a moment.</summary>
public sealed partial class OutlookWorker(
    IServiceScopeFactory scopes,
    OutlookSignal signal,
    ShopClock clock,
    ILogger<OutlookWorker> log
) : BackgroundService
{
    private static readonly TimeSpan Quiet = TimeSpan.FromSeconds(2);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        signal.Raise();
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                var asked = await signal.Wait(stoppingToken);
                await clock.Pause(Quiet, asked);
                await using var scope = scopes.CreateAsyncScope();
                await scope.ServiceProvider.GetRequiredService<Outlooks>().Renew(asked);
            }
            catch (OperationCanceledException)
            {
                // Facts have changed meanwhile and are drawn next, or the service is stopping.
            }
            catch (Exception fault)
            {
                Failed(fault);
            }
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The chances of the open promises could not be renewed")]
    private partial void Failed(Exception fault);
}
