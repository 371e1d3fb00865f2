using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>The shop as promises read it, with the version of the facts it was made from.</summary>
public sealed record KnownState(long Version, ShopSettings Shop, ShopState State);

/// <summary>Keeps the last state, so that a buyer who types gets an answer without the facts being read again.</summary>
public sealed class StateShelf
{
    private volatile KnownState? last;

    public KnownState? Find(long version, DateOnly today) =>
        last is { } kept && kept.Version == version && kept.State.Today == today ? kept : null;

    public KnownState Keep(KnownState state) => last = state;
}

public sealed class StateReader(ShopStore shops, PlanStore plan, FactsReader facts, StateShelf shelf, ShopClock clock)
{
    public async Task<Result<KnownState>> Read(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return FactsReader.NoShopYet;
        }

        return shelf.Find(await plan.FactsVersion(cancel), clock.Today(shop.Zone)) is { } known
            ? known
            : (await facts.Read(cancel)).Then<KnownState>(read =>
                shelf.Keep(new KnownState(read.Version, read.Shop, ShopStates.Of(read)))
            );
    }
}
