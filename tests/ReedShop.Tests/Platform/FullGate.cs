using System.Diagnostics.Metrics;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Platform;

/// <summary>
/// A shop in which as many orders compute as may, and as many wait as may: the writer is held, so that accepting does
/// not come to its end before it is let go. What computes and waits is told by the framework's own counters.
/// </summary>
public sealed class FullGate : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly TaskCompletionSource letGo = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly MeterListener listener = new();
    private readonly Lock counting = new();
    private Task held = Task.CompletedTask;
    private long computing;
    private long waiting;

    private FullGate() { }

    public IReadOnlyList<Task<HttpResponseMessage>> Orders { get; private set; } = [];

    /// <summary>The most that ever computed at once.</summary>
    public long MostComputing { get; private set; }

    /// <summary>The most that ever waited at once.</summary>
    public long MostWaiting { get; private set; }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <param name="shop">One that can promise clarinet reeds.</param>
    public static async Task<FullGate> Of(ShopHost shop)
    {
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 4)));
        var order = ExampleReeds.Order(quote.GetProperty("id").GetString()!);
        var gate = new FullGate();
        gate.Listen(shop);
        await gate.Hold(shop.Services.GetRequiredService<FactsGate>());
        gate.Orders =
        [
            .. Enumerable
                .Range(0, Computing.MostAtOnce + Computing.MostWaiting)
                .Select(_ => ShopHost.Send(shop.Guest, HttpMethod.Post, "/api/orders", order)),
        ];
        try
        {
            await gate.UntilFull();
            return gate;
        }
        catch
        {
            await gate.DisposeAsync();
            throw;
        }
    }

    /// <summary>Lets the writer go, so that the orders are answered.</summary>
    public async Task Open()
    {
        letGo.TrySetResult();
        await held.WaitAsync(Patience, Cancel);
    }

    public async ValueTask DisposeAsync()
    {
        await Open();
        await Task.WhenAll(Orders).WaitAsync(Patience, Cancel);
        listener.Dispose();
    }

    private async Task Hold(FactsGate writer)
    {
        var entered = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        held = writer.Change<bool>(
            async (_, _) =>
            {
                entered.SetResult();
                await letGo.Task;
                return Refusal.Missing("change");
            },
            Cancel
        );
        await entered.Task.WaitAsync(Patience, Cancel);
    }

    private async Task UntilFull()
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        end.CancelAfter(Patience);
        while (Now() != (Computing.MostAtOnce, Computing.MostWaiting))
        {
            await Task.Delay(10, end.Token);
        }
    }

    private (long Computing, long Waiting) Now()
    {
        lock (counting)
        {
            return (computing, waiting);
        }
    }

    private void Listen(ShopHost shop)
    {
        var meters = shop.Services.GetRequiredService<IMeterFactory>();
        listener.InstrumentPublished = (instrument, listening) =>
        {
            if (instrument.Meter.Name == "Microsoft.AspNetCore.RateLimiting" && instrument.Meter.Scope == meters)
            {
                listening.EnableMeasurementEvents(instrument);
            }
        };
        listener.SetMeasurementEventCallback<long>((instrument, change, _, _) => Count(instrument.Name, change));
        listener.Start();
    }

    private void Count(string name, long change)
    {
        lock (counting)
        {
            computing += name == "aspnetcore.rate_limiting.active_request_leases" ? change : 0;
            waiting += name == "aspnetcore.rate_limiting.queued_requests" ? change : 0;
            MostComputing = Math.Max(MostComputing, computing);
            MostWaiting = Math.Max(MostWaiting, waiting);
        }
    }
}
