using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Workshop;

/// <summary>Reads batches for pages and scripts.</summary>
public sealed class BatchReader(
    BatchStore batches,
    StockStore stock,
    PlanStore plan,
    CatalogueStore catalogue,
    OrderStore orders,
    FactsReader reader
)
{
    public async Task<ListPage<BatchView>> Page(int limit, int? after, CancellationToken cancel)
    {
        var models = (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);
        return Paging.Page(
            await batches.Page(after, limit, cancel),
            limit,
            batch => batch.Run,
            batch => BatchView.Of(batch, models.GetValueOrDefault(batch.Model))
        );
    }

    public async Task<Result<(BatchStory Story, int Version)>> Story(string id, CancellationToken cancel)
    {
        if (
            await batches.Find(id, cancel) is not { } batch
            || await catalogue.Find(batch.Model, cancel) is not { } model
        )
        {
            return Refusal.Missing("such batch");
        }

        var open = (await orders.Open(cancel)).ToDictionary(order => order.Id, StringComparer.Ordinal);
        var pegs = (await stock.Pegs(cancel)).Where(peg => peg.BatchRoot == batch.Root);
        var facts = await reader.Read(cancel);
        var story = new BatchStory(
            BatchView.Of(batch, model),
            [.. (await batches.Records(id, cancel)).Select(record => StepRecordView.Of(record, model))],
            [.. (await batches.Grades(id, cancel)).Select(g => new GradesView(g.Day, g.Final, g.Grades))],
            [
                .. (await plan.Sittings(cancel))
                    .Where(sitting => sitting.BatchId == id)
                    .Select(sitting =>
                        SittingView.Of(
                            sitting,
                            batch,
                            model,
                            facts.IsRefused ? null : Persons.NameOf(facts.Value.Shop, sitting)
                        )
                    ),
            ],
            [.. pegs.Select(peg => PegView.Of(peg, open[peg.OrderId]))],
            facts.IsRefused ? null : Alarms.Of(facts.Value, batch.Root)
        );
        return (story, batch.Version);
    }
}
