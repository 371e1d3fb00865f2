using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>Gathers what is known of a batch from its records, the plan, the journal and the letters.</summary>
public sealed class WholeStoryReader(
    BatchReader reader,
    BatchStore batches,
    CatalogueStore catalogue,
    ShopStore shops,
    JournalStore journal,
    OutboxStore outbox
)
{
    public async Task<Result<WholeStory>> Read(string id, CancellationToken cancel)
    {
        var told = await reader.Story(id, cancel);
        if (told.Refusal is { } refusal)
        {
            return refusal;
        }

        var story = told.Value.Story;
        var shop = await shops.Get(cancel);
        var model = (await catalogue.Find(story.Batch.Model, cancel))!;
        var trays = await batches.OfRoot(story.Batch.Root, cancel);
        var records = await batches.RecordsOfRoot(story.Batch.Root, cancel);
        var damp = await batches.DampNightsOf([.. trays.Select(tray => tray.Id)], cancel);
        return new WholeStory(
            story,
            model.Name,
            trays,
            BatchThread.Of(story, model, records, damp),
            Tallies(records, model),
            [.. Readings(records, model)],
            [
                .. (await batches.GradesOfRoot(story.Batch.Root, cancel)).Select(g => new GradesView(
                    g.Day,
                    g.Final,
                    g.Grades
                )),
            ],
            await Told(story, shop, cancel),
            await Changes(trays, shop, cancel),
            shop.LengthUnit
        );
    }

    private static IReadOnlyList<StepTally> Tallies(IReadOnlyList<StepRecord> records, ReedModel model) =>
        [
            .. records
                .Where(record => !record.SentAgain)
                .GroupBy(record => record.Step)
                .OrderBy(step => step.Key)
                .Select(step => new StepTally(
                    model.Route[step.Key].Name,
                    step.Sum(record => record.Passed),
                    step.Sum(record => record.Redo),
                    [
                        .. step.SelectMany(record => record.Rejected)
                            .GroupBy(reject => reject.Reason, StringComparer.Ordinal)
                            .Select(reason => new RejectCount(reason.Key, reason.Sum(reject => reject.Count))),
                    ]
                )),
        ];

    private static IEnumerable<StepReadings> Readings(IReadOnlyList<StepRecord> records, ReedModel model) =>
        records
            .Where(record => record.Measured.Count > 0)
            .GroupBy(record => record.Step)
            .OrderBy(step => step.Key)
            .Select(step => new StepReadings(
                model.Route[step.Key].Name,
                [.. step.SelectMany(record => record.Measured)],
                model.Route[step.Key].Measure
            ));

    private async Task<IReadOnlyList<ToldView>> Told(BatchStory story, ShopSettings shop, CancellationToken cancel)
    {
        var told = new List<ToldView>();
        foreach (var order in story.MadeFor.Select(peg => peg.Order).Distinct())
        {
            var letters = await outbox.About($"order {order}", cancel);
            told.AddRange(
                letters.Select(letter => new ToldView(
                    Local(letter.CreatedUtc, shop),
                    order,
                    letter.To == shop.OwnerEmail ? "you" : "the buyer",
                    letter.Title,
                    letter.SentUtc is not null
                ))
            );
        }

        return told;
    }

    private async Task<IReadOnlyList<ChangeView>> Changes(
        IReadOnlyList<Batch> trays,
        ShopSettings shop,
        CancellationToken cancel
    ) =>
        [
            .. (await journal.About([.. trays.Select(tray => $"batch {tray.Number}")], cancel)).Select(
                entry => new ChangeView(Local(entry.AtUtc, shop), entry.Subject, entry.Who, entry.Text)
            ),
        ];

    private static DateTime Local(DateTime utc, ShopSettings shop) =>
        ShopClock.Local(utc, shop.Zone).ToDateTimeUnspecified();
}
