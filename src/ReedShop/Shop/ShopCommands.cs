using ReedShop.Planning.Bench;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Shop;

/// <summary>Days to have other hours, and days to go back to those of the week.</summary>
/// <param name="Says">For the journal.</param>
public sealed record DaysWanted(IReadOnlyList<OtherDay> Kept, IReadOnlyList<DateOnly> Removed, string Says);

/// <param name="Version">Of the settings now.</param>
/// <param name="Days">How many days are other than they were.</param>
public sealed record DaysChanged(int Version, int Days);

/// <summary>Whether anybody has ordered yet.</summary>
public delegate Task<bool> AnyOrders(CancellationToken cancel);

/// <summary>Changes of the settings, whichever door they come through.</summary>
public sealed class ShopCommands(FactsGate gate)
{
    public static Refusal NoShopYet => Refusal.Missing("shop yet: open it on the first-run page");

    public Task<Result<ShopSettings>> Save(ShopView wanted, VersionCheck check, CancellationToken cancel) =>
        gate.Change((services, stop) => Save(services, wanted, check, stop), cancel);

    /// <summary>Opens the bench for longer on one day.</summary>
    public Task<Result<OtherDay>> OpenLonger(DateOnly date, int minutes, CancellationToken cancel) =>
        gate.Change<OtherDay>(
            async (services, stop) =>
            {
                if (await services.GetRequiredService<ShopStore>().FindForChange(stop) is not { } shop)
                {
                    return NoShopYet;
                }

                var today = services.GetRequiredService<ShopClock>().Today(shop.Zone);
                return LongerFault(shop, date, minutes, today) is { } fault ? fault
                    : LongerDay.Of(shop.Bench, date, minutes) is { } hours ? OpenLonger(services, shop, date, hours)
                    : Refusal.Invalid("date", "The day has no room for so long.", "fewer minutes, or another day");
            },
            cancel
        );

    /// <summary>
    /// Other hours on some days, worked out from the settings as they are when the turn comes. Where all is so already,
    /// nothing is written and the version stays.
    /// </summary>
    public Task<Result<DaysChanged>> ChangeDays(
        Func<ShopSettings, DateOnly, Result<DaysWanted>> wanted,
        VersionCheck check,
        CancellationToken cancel
    ) =>
        gate.Change<DaysChanged>(
            async (services, stop) =>
            {
                if (await services.GetRequiredService<ShopStore>().FindForChange(stop) is not { } shop)
                {
                    return NoShopYet;
                }

                var days = check(shop.Version) is { } stale
                    ? stale
                    : wanted(shop, services.GetRequiredService<ShopClock>().Today(shop.Zone));
                return days.Then<DaysChanged>(change => ChangeDays(services, shop, change));
            },
            cancel
        );

    private static DaysChanged ChangeDays(IServiceProvider services, ShopSettings shop, DaysWanted change)
    {
        var touched = change.Kept.Select(day => day.Date).Concat(change.Removed).ToHashSet();
        if (touched.Count > 0)
        {
            shop.OtherDays =
            [
                .. shop
                    .OtherDays.Where(day => !touched.Contains(day.Date))
                    .Concat(change.Kept)
                    .OrderBy(day => day.Date),
            ];
            shop.Version++;
            services.GetRequiredService<JournalStore>().Write("owner", "shop", change.Says);
        }

        return new DaysChanged(shop.Version, touched.Count);
    }

    private static Refusal? LongerFault(ShopSettings shop, DateOnly date, int minutes, DateOnly today) =>
        minutes is < 1 or > LongerDay.MostMinutes
            ? Refusal.Invalid("minutes", "So many minutes cannot be added.", $"1 to {LongerDay.MostMinutes}")
        : date <= today || date > today.AddDays(LongerDay.MostDaysAhead)
            ? Refusal.Invalid(
                "date",
                "The day cannot be made longer.",
                $"{Words.DayToSend(today.AddDays(1))} to {Words.DayToSend(today.AddDays(LongerDay.MostDaysAhead))}"
            )
        : shop.OtherDays.FirstOrDefault(day => day.Date == date) is { Hours.Count: 0 } closed
            ? Refusal.Stage(
                $"You closed that day{(closed.Reason is { } reason ? $": {reason}" : "")}.",
                "another day, or open it in the settings first"
            )
        : null;

    private static OtherDay OpenLonger(
        IServiceProvider services,
        ShopSettings shop,
        DateOnly date,
        IReadOnlyList<OpenHours> hours
    )
    {
        var longer = new OtherDay(date, hours, shop.OtherDays.FirstOrDefault(day => day.Date == date)?.Reason);
        ChangeDays(services, shop, new DaysWanted([longer], [], $"open for longer on {date:yyyy-MM-dd}"));
        return longer;
    }

    private static async Task<Result<ShopSettings>> Save(
        IServiceProvider services,
        ShopView wanted,
        VersionCheck check,
        CancellationToken cancel
    )
    {
        var shops = services.GetRequiredService<ShopStore>();
        var shop = await shops.FindForChange(cancel);
        if ((wanted.Fault() ?? (shop is null ? null : check(shop.Version))) is { } refusal)
        {
            return refusal;
        }

        return shop is not null && await CurrencyFault(services, shop, wanted, cancel) is { } fault
            ? fault
            : Open(services, shops, shop, wanted);
    }

    /// <summary>Orders, invoices and the balance of what came in and went back are in one currency.</summary>
    private static async Task<Refusal?> CurrencyFault(
        IServiceProvider services,
        ShopSettings shop,
        ShopView wanted,
        CancellationToken cancel
    ) =>
        wanted.Currency != shop.Currency && await services.GetRequiredService<AnyOrders>()(cancel)
            ? Refusal.Invalid("currency", "There are orders in the shop's currency.", shop.Currency)
            : null;

    /// <summary>Writes the settings, for the first time or again.</summary>
    internal static ShopSettings Open(IServiceProvider services, ShopStore shops, ShopSettings? shop, ShopView wanted)
    {
        if (shop is null)
        {
            shop = wanted.ToSettings();
            shops.Add(shop);
        }
        else
        {
            wanted.ApplyTo(shop);
        }

        services.GetRequiredService<JournalStore>().Write("owner", "shop", "settings changed");
        return shop;
    }
}
