using System.Globalization;
using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Ticks;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Reminders;

/// <summary>
/// Tells the maker when the cane for a model will not last long, by what was started in the last weeks: once until more
/// is bought. Cane seasons for months, so weeks to come are what counts, not blanks.
/// </summary>
public sealed class LowCane(
    ShopStore shops,
    CaneStore cane,
    CatalogueStore catalogue,
    BatchStore batches,
    LetterStore settings,
    MakersLetters letters,
    PublicAddress address,
    ShopClock clock
) : ITick
{
    /// <summary>Long enough that one busy week is not taken for the usual.</summary>
    public const int WeeksLookedBack = 8;

    public async Task Run(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return;
        }

        var since = clock.Today(shop.Zone).AddDays(-7 * WeeksLookedBack);
        var started = await batches.StartedFromCaneSince(since, cancel);
        var wanted = (await settings.Read(cancel)).CaneWeeks;
        var lots = (await cane.All(cancel)).ToLookup(lot => lot.Model, StringComparer.Ordinal);
        foreach (var model in (await catalogue.All(cancel)).Where(model => started.GetValueOrDefault(model.Key) > 0))
        {
            var (left, used) = (lots[model.Key].Sum(lot => lot.BlanksLeft), started[model.Key]);
            if (left * WeeksLookedBack < wanted * used)
            {
                await Tell(shop, model, [.. lots[model.Key]], used, cancel);
            }
        }
    }

    private async Task Tell(
        ShopSettings shop,
        ReedModel model,
        IReadOnlyList<CaneLot> lots,
        int used,
        CancellationToken cancel
    )
    {
        var subject = string.Create(CultureInfo.InvariantCulture, $"{model.Key}, with {lots.Count} lots bought");
        if (await letters.IsDue(LetterKind.LowCane, subject, cancel))
        {
            var title = $"Cane for {model.Name} runs low";
            await letters.Write(LetterKind.LowCane, subject, shop, title, Text(model, lots, used), cancel);
        }
    }

    private string Text(ReedModel model, IReadOnlyList<CaneLot> lots, int used)
    {
        var left = lots.Sum(lot => lot.BlanksLeft);
        var weeks = (double)left * WeeksLookedBack / used;
        var open = lots.Where(lot => lot.BlanksLeft > 0)
            .Select(lot =>
                $"  {lot.Key}: {Words.Blanks(lot.BlanksLeft)}, seasoned from {Words.DayOfYear(lot.SeasonedFrom)}\n"
            );
        return $"{model.Name}: {Words.Blanks(left)} are left. At {Words.Blanks(used)} in the last {WeeksLookedBack} weeks "
            + $"they last about {Words.Count((int)weeks, "week", "weeks")}. New cane has to season first.\n\n"
            + string.Concat(open)
            + $"\nCount or add cane here:\n{address.Of("/bench/cane")}\n";
    }
}
