using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Opening;

/// <summary>How far a new shop is furnished. Nothing is kept of the walk itself: what is there says which steps are done.</summary>
public sealed record WalkState(
    ShopSettings Shop,
    DateOnly Today,
    IReadOnlyList<ReedModel> Models,
    IReadOnlyList<CaneLot> Cane,
    int PastBatches
)
{
    public bool IsDone(WalkStep step) =>
        step.Key switch
        {
            "shop" => true,
            // The settings were written once when the shop was opened.
            "hours" => Shop.Version > 1,
            "model" => Models.Count > 0,
            "cane" => Cane.Count > 0,
            "past" => PastBatches > 0 || Shop.Confidence < ShopView.UsualConfidence,
            _ => false,
        };

    /// <summary>Where the walk was left.</summary>
    public WalkStep Open => WalkStep.All.First(step => !IsDone(step));
}

public sealed class WalkReader(
    ShopStore shops,
    CatalogueStore catalogue,
    CaneStore cane,
    PastStore past,
    ShopClock clock
)
{
    public async Task<WalkState?> Read(CancellationToken cancel) =>
        await shops.Find(cancel) is { } shop
            ? new WalkState(
                shop,
                clock.Today(shop.Zone),
                await catalogue.All(cancel),
                await cane.All(cancel),
                await past.BatchCount(cancel)
            )
            : null;
}
