using System.Data.Common;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Payments;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Payments;

public sealed class DiedException() : Exception("The process has died here.");

/// <summary>
/// Ends the program at one of its boundaries: before or after the n-th write to the database or request to Stripe of the
/// flow that is being watched. From then on nothing reaches either until it is revived, as if the process were gone. What
/// Stripe was told before stays told.
/// </summary>
public sealed class Death
{
    private readonly AsyncLocal<bool> watched = new();
    private int at;
    private int passed;
    private volatile bool isDead;
    private volatile bool watchesRequests;

    /// <summary>Boundaries that the watched flow has passed since the last watch.</summary>
    public int Passed => passed;

    public bool IsDead => isDead;

    public void Configure(IServiceCollection services)
    {
        services.ConfigureDbContext<SqliteShopDb>(
            (_, options) => options.AddInterceptors(new Saves(this), new Commands(this))
        );
        services.AddHttpClient(StripeDesk.Wire).AddHttpMessageHandler(() => new Requests(this));
        services.AddSingleton<IStartupFilter>(new Visits(this));
    }

    /// <summary>
    /// Runs work that dies at that boundary, from 1; 0 lets it live. What others ask over HTTP meanwhile belongs to it. True
    /// if it died.
    /// </summary>
    public async Task<bool> Watch(int boundary, Func<Task> work)
    {
        (at, passed, watched.Value, watchesRequests) = (boundary, 0, true, true);
        try
        {
            await work();
        }
        catch (Exception) when (isDead)
        {
            // Whatever the work made of its own death is gone with it.
        }
        finally
        {
            (watched.Value, watchesRequests) = (false, false);
        }

        return isDead;
    }

    public void Revive() => isDead = false;

    private void Pass()
    {
        if (isDead)
        {
            throw new DiedException();
        }

        if (watched.Value && Interlocked.Increment(ref passed) == at)
        {
            isDead = true;
            throw new DiedException();
        }
    }

    private void Touch()
    {
        if (isDead)
        {
            throw new DiedException();
        }
    }

    /// <summary>A request over a socket brings nothing along of the flow that sent it.</summary>
    private sealed class Visits(Death death) : IStartupFilter
    {
        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) =>
            app =>
            {
                app.Use(
                    (http, rest) =>
                    {
                        death.watched.Value = death.watchesRequests;
                        return rest(http);
                    }
                );
                next(app);
            };
    }

    private sealed class Requests(Death death) : DelegatingHandler
    {
        protected override async Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        )
        {
            death.Pass();
            var answer = await base.SendAsync(request, cancellationToken);
            death.Pass();
            return answer;
        }
    }

    private sealed class Saves(Death death) : SaveChangesInterceptor
    {
        public override ValueTask<InterceptionResult<int>> SavingChangesAsync(
            DbContextEventData eventData,
            InterceptionResult<int> result,
            CancellationToken cancellationToken = default
        )
        {
            death.Pass();
            return ValueTask.FromResult(result);
        }

        public override ValueTask<int> SavedChangesAsync(
            SaveChangesCompletedEventData eventData,
            int result,
            CancellationToken cancellationToken = default
        )
        {
            death.Pass();
            return ValueTask.FromResult(result);
        }
    }

    private sealed class Commands(Death death) : DbCommandInterceptor
    {
        public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
            DbCommand command,
            CommandEventData eventData,
            InterceptionResult<DbDataReader> result,
            CancellationToken cancellationToken = default
        )
        {
            death.Touch();
            return ValueTask.FromResult(result);
        }

        public override ValueTask<InterceptionResult<int>> NonQueryExecutingAsync(
            DbCommand command,
            CommandEventData eventData,
            InterceptionResult<int> result,
            CancellationToken cancellationToken = default
        )
        {
            Around(eventData);
            return ValueTask.FromResult(result);
        }

        public override ValueTask<int> NonQueryExecutedAsync(
            DbCommand command,
            CommandExecutedEventData eventData,
            int result,
            CancellationToken cancellationToken = default
        )
        {
            Around(eventData);
            return ValueTask.FromResult(result);
        }

        /// <summary>Updates in one statement are writes of their own; those of a save are counted with it.</summary>
        private void Around(CommandEventData eventData)
        {
            if (eventData.CommandSource == CommandSource.ExecuteUpdate)
            {
                death.Pass();
            }
            else
            {
                death.Touch();
            }
        }
    }
}
