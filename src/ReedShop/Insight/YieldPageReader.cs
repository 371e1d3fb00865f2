using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Workshop;

namespace ReedShop.Insight;

/// <summary>Reads all that the page of yields shows.</summary>
public sealed class YieldPageReader(YieldReader reader, CatalogueStore catalogue, MarkerStore markers)
{
    /// <param name="sizing">The answer to a sizing question, where one was asked.</param>
    /// <param name="typed">A marker that was refused, as it was typed.</param>
    public async Task<IResult> Show(
        SizingQuestion question,
        Result<SizingAnswered>? sizing,
        IFormCollection? typed,
        Refusal? markerRefusal,
        CancellationToken cancel
    )
    {
        var yields = await reader.Yields(null, cancel);
        if (yields.Refusal is { } missing)
        {
            return Pages.Refuse(missing, "/", InsightPages.Address);
        }

        return Pages.Show<YieldsPage>(
            new
            {
                Yields = yields.Value,
                Models = await catalogue.All(cancel),
                Markers = await markers.All(cancel),
                Question = question,
                Answer = sizing is { IsRefused: false } sized ? sized.Value : null,
                sizing?.Refusal,
                Typed = typed,
                MarkerRefusal = markerRefusal,
            },
            sizing?.Refusal ?? markerRefusal
        );
    }
}
