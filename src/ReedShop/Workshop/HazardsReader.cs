using ReedShop.Catalogue;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>What nights and evenings have shown so far. The last answer is kept until a record or a day makes it old.</summary>
public sealed class HazardsReader(
    BatchStore batches,
    PlanStore plan,
    CatalogueStore catalogue,
    LastAnswer<HazardsKey, BenchHazards> kept
)
{
    public async Task<BenchHazards> Read(ShopSettings shop, DateOnly today, CancellationToken cancel)
    {
        var key = new HazardsKey(
            today,
            shop.DampNightChance,
            shop.LostEveningChance,
            await batches.RecordsMark(cancel),
            await batches.DampNightCount(cancel)
        );
        return kept.Find(key)
            ?? kept.Keep(key, (await History(today, cancel)).Hazards(shop.DampNightChance, shop.LostEveningChance));
    }

    private async Task<HazardHistory> History(DateOnly today, CancellationToken cancel)
    {
        var routes = (await catalogue.All(cancel)).ToDictionary(model => model.Key, model => model.Route);
        var roots = (await batches.Roots(cancel)).ToDictionary(batch => batch.Id, batch => batch.Model);
        var damp = (await batches.DampNights(cancel)).Select(night => (night.BatchId, night.Date)).ToHashSet();
        var nights = (await batches.AllRecords(cancel))
            .Where(record => roots.TryGetValue(record.Root, out var model) && routes.ContainsKey(model))
            .SelectMany(record => Nights(record, routes[roots[record.Root]], damp, today))
            .GroupBy(night => night.Date)
            .Select(night => new RackNight(night.Key, night.Any(seen => seen.IsDamp)))
            .OrderBy(night => night.Date);
        var evenings = (await plan.PastEvenings(cancel)).Select(evening => new PlannedEvening(
            evening.Date,
            evening.PlannedMinutes,
            evening.DoneMinutes
        ));
        return new HazardHistory([.. nights], [.. evenings]);
    }

    /// <summary>The nights after a step until the blanks were dry: after that nobody looks whether a night was damp.</summary>
    private static IEnumerable<RackNight> Nights(
        StepRecord record,
        ReedRoute route,
        HashSet<(string BatchId, DateOnly Date)> damp,
        DateOnly today
    )
    {
        var left = record.Step <= route.Steps.Count && route[record.Step].Then is Follow.Dry dry ? dry.Nights : 0;
        for (var date = record.Day; left > 0 && date < today; date = date.AddDays(1))
        {
            var isDamp = damp.Contains((record.BatchId, date));
            left -= isDamp ? 0 : 1;
            yield return new RackNight(date, isDamp);
        }
    }
}

/// <summary>What the hazards were made from.</summary>
public sealed record HazardsKey(
    DateOnly Today,
    double DampNightChance,
    double LostEveningChance,
    (int Count, long Last, long Mark) Records,
    int DampNights
);
