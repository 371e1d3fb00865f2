using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>
/// One change at the bench: reads the facts, does the work, brings the plan up to date and saves all of it in one
/// transaction.
/// </summary>
public sealed class Bench(FactsGate gate)
{
    public Task<Result<T>> Change<T>(
        Func<IServiceProvider, BenchFacts, CancellationToken, Task<Result<T>>> work,
        CancellationToken cancel
    ) =>
        gate.Change<T>(
            async (services, stop) =>
            {
                var read = await services.GetRequiredService<FactsReader>().Read(stop);
                if (read.Refusal is { } refusal)
                {
                    return refusal;
                }

                var facts = read.Value;
                await services.GetRequiredService<PastEvenings>().Close(facts, stop);
                var done = await work(services, facts, stop);
                if (!done.IsRefused)
                {
                    services.GetRequiredService<MakeUp>().RetryUnserved(facts);
                    Replanner.Replan(facts);
                }

                return done;
            },
            cancel
        );
}
