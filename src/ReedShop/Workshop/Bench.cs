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
                return read.Refusal is { } refusal ? refusal : await Change(services, read.Value, work, stop);
            },
            cancel
        );

    /// <summary>
    /// Plans again where facts or day are newer than the plan. Somebody else may have done so while this waited for its
    /// turn: then nothing is written, and whoever read the plan meanwhile read the newest.
    /// </summary>
    public Task<Result<bool>> CatchUp(CancellationToken cancel) =>
        gate.Change<bool>(
            async (services, stop) =>
            {
                var read = await services.GetRequiredService<FactsReader>().Read(stop);
                return read.Refusal is { } refusal ? refusal
                    : IsCurrent(read.Value) ? true
                    : await Change<bool>(services, read.Value, (_, _, _) => Task.FromResult<Result<bool>>(true), stop);
            },
            cancel
        );

    /// <summary>The change being made has already raised the version by one.</summary>
    private static bool IsCurrent(BenchFacts facts) =>
        facts.Key.FactsVersion == facts.Version - 1 && facts.Key.Day == facts.Today;

    private static async Task<Result<T>> Change<T>(
        IServiceProvider services,
        BenchFacts facts,
        Func<IServiceProvider, BenchFacts, CancellationToken, Task<Result<T>>> work,
        CancellationToken cancel
    )
    {
        await services.GetRequiredService<PastEvenings>().Close(facts, cancel);
        var done = await work(services, facts, cancel);
        if (!done.IsRefused)
        {
            services.GetRequiredService<MakeUp>().RetryUnserved(facts);
            Replanner.Replan(facts);
        }

        return done;
    }
}
