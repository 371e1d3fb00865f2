using ReedShop.Cane;
using ReedShop.Catalogue;

namespace ReedShop.Workshop;

/// <summary>Whether a shop has what a promise takes: something to make, and cane to make it from.</summary>
public sealed class Furnishing(CatalogueStore catalogue, CaneStore cane)
{
    public async Task<bool> IsDone(CancellationToken cancel) =>
        (await catalogue.All(cancel)).Count > 0 && (await cane.All(cancel)).Count > 0;
}
