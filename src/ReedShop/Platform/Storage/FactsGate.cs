using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Idempotency;
using ReedShop.Platform.Layout;

namespace ReedShop.Platform.Storage;

/// <summary>Counts every change of what the planner reads. A stored plan or quote names the version it was made from.</summary>
public sealed class FactsVersion
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    public long Version { get; set; }
}

/// <summary>
/// The door for changes to facts the planner reads: one writer at a time in this process (SQLite has one anyway), and
/// a version check in the transaction for writers in others. The work may run again, so it must read all it needs.
/// </summary>
public sealed class FactsGate(IServiceScopeFactory scopes, FactsSignal signal, KeyedRequests requests) : IDisposable
{
    private const int MostTries = 5;

    private readonly SemaphoreSlim turn = new(1, 1);

    /// <summary>
    /// Runs <paramref name="work"/> with services of its own and saves what it changed in one transaction together
    /// with the next version. A refusal saves nothing, and work that changed nothing leaves the version as it is.
    /// Work that inserts beside the tracked changes opens a transaction of its own; it is committed here.
    /// </summary>
    public Task<Result<T>> Change<T>(
        Func<IServiceProvider, CancellationToken, Task<Result<T>>> work,
        CancellationToken cancel
    ) => InTurn(work, isFact: true, cancel);

    /// <summary>The same for what the planner does not read, such as money: the version stays as it is.</summary>
    public Task<Result<T>> Write<T>(
        Func<IServiceProvider, CancellationToken, Task<Result<T>>> work,
        CancellationToken cancel
    ) => InTurn(work, isFact: false, cancel);

    public void Dispose() => turn.Dispose();

    private async Task<Result<T>> InTurn<T>(
        Func<IServiceProvider, CancellationToken, Task<Result<T>>> work,
        bool isFact,
        CancellationToken cancel
    )
    {
        await turn.WaitAsync(cancel);
        try
        {
            for (var attempt = 0; attempt < MostTries; attempt++)
            {
                if (await TryChange(work, isFact, cancel) is { } result)
                {
                    return result;
                }
            }

            return new Refusal(RefusalKind.Busy, FrameTexts.Say["OthersCameFirst"]);
        }
        finally
        {
            turn.Release();
        }
    }

    private async Task<Result<T>?> TryChange<T>(
        Func<IServiceProvider, CancellationToken, Task<Result<T>>> work,
        bool isFact,
        CancellationToken cancel
    )
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        if (isFact)
        {
            (await db.Set<FactsVersion>().SingleAsync(cancel)).Version++;
        }

        try
        {
            var result = await work(scope.ServiceProvider, cancel);
            if (result.IsRefused || !HasChanges(db))
            {
                return result;
            }

            var request = requests.Current is { IsStored: false } keyed ? keyed : null;
            if (request is not null)
            {
                scope.ServiceProvider.GetRequiredService<AnswerStore>().Add(request, result.Value);
            }

            await db.SaveChangesAsync(cancel);
            await (db.Database.CurrentTransaction?.CommitAsync(cancel) ?? Task.CompletedTask);
            request?.IsStored = true;
            if (isFact)
            {
                signal.Raise();
            }

            return result;
        }
        catch (DbUpdateConcurrencyException)
        {
            return null;
        }
    }

    private static bool HasChanges(ShopDb db) =>
        db.Database.CurrentTransaction is not null
        || db.ChangeTracker.Entries()
            .Any(entry => entry.Entity is not FactsVersion && entry.State != EntityState.Unchanged);
}

/// <summary>Tells whoever keeps the plan that facts have changed.</summary>
public sealed class FactsSignal
{
    private readonly System.Threading.Channels.Channel<bool> raised =
        System.Threading.Channels.Channel.CreateBounded<bool>(
            new System.Threading.Channels.BoundedChannelOptions(1)
            {
                FullMode = System.Threading.Channels.BoundedChannelFullMode.DropWrite,
            }
        );

    public void Raise() => raised.Writer.TryWrite(true);

    public ValueTask<bool> Wait(CancellationToken cancel) => raised.Reader.ReadAsync(cancel);
}

internal sealed class FactsVersionMapping : IEntityTypeConfiguration<FactsVersion>
{
    public void Configure(EntityTypeBuilder<FactsVersion> builder)
    {
        builder.ToTable("facts");
        builder.Property(facts => facts.Id).ValueGeneratedNever();
        builder.Property(facts => facts.Version).IsConcurrencyToken();
        builder.HasData(new FactsVersion { Version = 0 });
    }
}
