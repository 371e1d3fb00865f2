using ReedShop.Catalogue;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>The maker's planned sittings of some days, in the order of the days. Helpers have hours of their own.</summary>
public sealed class SittingsOnDays(PlanStore plan, BatchStore batches, CatalogueStore catalogue, ShopStore shops)
{
    public async Task<IReadOnlyList<StandingSitting>> Between(DateOnly first, DateOnly last, CancellationToken cancel)
    {
        var shop = await shops.Get(cancel);
        var open = (await batches.Open(cancel)).ToDictionary(batch => batch.Id, StringComparer.Ordinal);
        var models = (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);
        return
        [
            .. from sitting in await plan.Sittings(cancel)
            where first <= sitting.Day && sitting.Day <= last && Persons.NameOf(shop, sitting) is null
            let batch = open.GetValueOrDefault(sitting.BatchId)
            where batch is not null
            let view = SittingView.Of(sitting, batch, models[batch.Model], null)
            select new StandingSitting(view.Date, view.Batch, view.BatchNumber, view.Steps, view.Minutes),
        ];
    }
}
