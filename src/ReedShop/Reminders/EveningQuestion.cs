using System.Globalization;
using System.Text;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Ticks;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Reminders;

/// <summary>
/// Asks when the bench closes what became of the steps of the day that nobody has recorded, with a link to each. What
/// stays unrecorded is planned again after midnight, and with it the dates of its orders.
/// </summary>
public sealed class EveningQuestion(
    ShopStore shops,
    PlanStore plan,
    FactsReader reader,
    MakersLetters letters,
    PublicAddress address,
    ShopClock clock
) : ITick
{
    public async Task Run(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop || ClosedDay(shop) is not { } today)
        {
            return;
        }

        var subject = Words.Iso(today);
        if (
            await letters.IsDue(LetterKind.WhatWasDone, subject, cancel)
            && (await plan.Sittings(cancel)).Any(sitting => sitting.Day == today)
            && (await reader.Read(cancel)) is { IsRefused: false, Value: var facts }
            && Undone(facts) is [_, ..] undone
        )
        {
            var text = Text(facts, undone);
            await letters.Write(LetterKind.WhatWasDone, subject, shop, Title(facts), text, cancel);
        }
    }

    /// <summary>Today, once the last of those at the bench has closed.</summary>
    private DateOnly? ClosedDay(ShopSettings shop)
    {
        var today = clock.Today(shop.Zone);
        var hours = shop.Calendars().SelectMany(bench => bench.HoursOn(today)).ToArray();
        return hours.Length > 0 && clock.NowUtc >= ShopClock.InstantOf(today, hours.Max(h => h.To), shop.Zone)
            ? today
            : null;
    }

    private static List<(Batch Batch, PlannedSitting Sitting)> Undone(BenchFacts facts) =>
        [
            .. facts
                .OpenBatches.Join(
                    facts.Sittings.Where(sitting => sitting.Day == facts.Today),
                    batch => batch.Id,
                    sitting => sitting.BatchId,
                    (batch, sitting) => (batch, sitting),
                    StringComparer.Ordinal
                )
                .Where(work => work.batch.NextStep <= work.sitting.LastStep)
                .DistinctBy(work => work.batch.Id),
        ];

    private static string Title(BenchFacts facts) => $"What was done? {Words.FullDay(facts.Today)}";

    private string Text(BenchFacts facts, IEnumerable<(Batch Batch, PlannedSitting Sitting)> undone)
    {
        var text = new StringBuilder($"{facts.Shop.Name}, {Words.FullDay(facts.Today)}\n\n");
        text.Append("These steps were planned for today and are not recorded. Each link opens the page to do so.\n");
        foreach (var (batch, sitting) in undone)
        {
            var steps = facts.Models[batch.Model].Route.Steps.Take(sitting.LastStep).Skip(batch.NextStep - 1);
            text.Append(
                CultureInfo.InvariantCulture,
                $"""

                Batch {batch.Number}, {Words.Blanks(batch.Blanks)}: {string.Join(", ", steps.Select(step => step.Name))}
                  {address.Of(RecordLinks.AddressOf(batch))}

                """
            );
        }

        return text.Append("\nWhat stays unrecorded is planned again after midnight.\n").ToString();
    }
}
