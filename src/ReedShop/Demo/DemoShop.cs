using System.Security.Cryptography;
using ReedShop.Accounts;
using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Checkout;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Quotes;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Demo;

/// <summary>Furnishes an empty data folder with the invented shop, through the doors a real one is furnished through.</summary>
public sealed class DemoShop(IServiceScopeFactory scopes, ShopClock clock)
{
    private const ulong Seed = 1;
    private const int Orders = 30;
    private const int MostBuyers = 45;
    private const string Subject = "demo";

    // No letter that is easily mistaken for another.
    private const string PasswordSigns = "abcdefghjkmnpqrstuvwxyz23456789";

    /// <summary>Does nothing where the demo is furnished already; a shop of somebody's own is never touched.</summary>
    public async Task Furnish(CancellationToken cancel)
    {
        if (await Within(services => services.GetRequiredService<JournalStore>().Latest(Subject, 1, cancel)) is not [])
        {
            return;
        }

        if (await Within(services => services.GetRequiredService<ShopStore>().Find(cancel)) is not null)
        {
            throw new CannotStartException(
                "This data folder holds a shop of its own. Start it without --demo, or give the demo another folder with ReedShop__DataFolder.",
                CannotStartException.BadSettings
            );
        }

        var today = clock.Today(DemoBench.Zone);
        await SetUp(today, cancel);
        await Remember(today, cancel);
        await Stock(today, cancel);
        await Sell(cancel);
    }

    /// <summary>Lets whoever reads the console in: a new password with every start, so that none is known in advance.</summary>
    public async Task<string> NewPassword()
    {
        var password = RandomNumberGenerator.GetString(PasswordSigns, OwnerAccount.LeastPasswordCharacters);
        return await Within(async services =>
        {
            var owner = services.GetRequiredService<OwnerAccount>();
            if (await owner.Exists())
            {
                await owner.ReplacePassword(password);
            }
            else
            {
                await owner.Create(password);
            }

            return password;
        });
    }

    private async Task SetUp(DateOnly today, CancellationToken cancel) =>
        Must(
            await Within(services =>
                services
                    .GetRequiredService<FactsGate>()
                    .Change<bool>(
                        (inner, _) =>
                        {
                            inner.GetRequiredService<ShopStore>().Add(DemoBench.Settings(today).ToSettings());
                            foreach (var model in DemoBench.Models())
                            {
                                inner.GetRequiredService<CatalogueStore>().Add(model);
                            }

                            foreach (var lot in DemoBench.Cane(today))
                            {
                                inner.GetRequiredService<CaneStore>().Add(lot);
                            }

                            inner.GetRequiredService<JournalStore>().Write("demo", Subject, "all of it is invented");
                            return Task.FromResult<Result<bool>>(true);
                        },
                        cancel
                    )
            )
        );

    private async Task Remember(DateOnly today, CancellationToken cancel)
    {
        var history = DemoHistory.Of(Seed, today.AddDays(-1));
        using var steps = new StringReader(history.Steps);
        using var grades = new StringReader(history.Grades);
        Must(await Within(services => services.GetRequiredService<HistoryImport>().ImportSteps(steps, true, cancel)));
        Must(await Within(services => services.GetRequiredService<HistoryImport>().ImportGrades(grades, true, cancel)));
    }

    private async Task Stock(DateOnly today, CancellationToken cancel) =>
        Must(
            await Within(services =>
                services
                    .GetRequiredService<Bench>()
                    .Change(
                        (inner, facts, stop) =>
                            inner.GetRequiredService<StartingState>().Write(facts, DemoBench.Stock(today), stop),
                        cancel
                    )
            )
        );

    /// <summary>Quotes and takes orders as the page does; who is told that no date can be promised goes away.</summary>
    private async Task Sell(CancellationToken cancel)
    {
        var taken = 0;
        for (var n = 0; n < MostBuyers && taken < Orders; n++)
        {
            taken += await Within(services => Order(services, n, cancel)) ? 1 : 0;
        }
    }

    private static async Task<bool> Order(IServiceProvider services, int n, CancellationToken cancel)
    {
        var quote = await services.GetRequiredService<QuoteMaker>().Make(DemoBuyers.Wish(Seed, n), cancel);
        if (quote.IsRefused)
        {
            return false;
        }

        var wish = new OrderWish(quote.Value.Id!, DemoBuyers.Buyer(n), DemoBuyers.Address(n));
        return !(await services.GetRequiredService<Accepting>().Accept(wish, cancel)).IsRefused;
    }

    private async Task<T> Within<T>(Func<IServiceProvider, Task<T>> work)
    {
        await using var scope = scopes.CreateAsyncScope();
        return await work(scope.ServiceProvider);
    }

    /// <summary>A refusal here is a fault of the demo's own figures.</summary>
    private static void Must<T>(Result<T> result) => _ = result.Value;
}
