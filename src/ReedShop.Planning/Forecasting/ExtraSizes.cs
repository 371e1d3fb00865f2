using System.Globalization;
using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>An extra batch as it would be started today.</summary>
/// <param name="Strength">What its size was chosen for; others of the model are near enough.</param>
/// <param name="Covers">The most missing reeds it is large enough for.</param>
internal sealed record ExtraSize(
    string Name,
    string Model,
    Strength Strength,
    int Covers,
    BlankSource Source,
    int Blanks
);

/// <summary>
/// The extra batches that draws may start when reeds are missing: a few sizes for each model that somebody waits for.
/// </summary>
internal static class ExtraSizes
{
    /// <summary>Reeds missing that an extra batch is made for; one that misses more takes the largest.</summary>
    private static readonly int[] Shortages = [1, 2, 4, 8];

    private const int BatchesOfASize = 3;

    /// <summary>What an extra batch is sized for: one that is short again costs another month.</summary>
    private const double Cover = 0.9;

    public static IEnumerable<ExtraSize> Of(ShopState state) => Wanted(state).SelectMany(wanted => Of(state, wanted));

    /// <summary>Of each model that somebody waits for, the most reeds waited for from one place.</summary>
    private static IEnumerable<PeggedReeds> Wanted(ShopState state) =>
        state
            .Promises.SelectMany(promise => promise.Pegs)
            .GroupBy(pegs => pegs.Model, StringComparer.Ordinal)
            .Select(pegs => pegs.MaxBy(peg => peg.Quantity)!);

    private static IEnumerable<ExtraSize> Of(ShopState state, PeggedReeds wanted) =>
        from missing in Shortages.Where((_, s) => s == 0 || Shortages[s - 1] < wanted.Quantity)
        let source = SourceFor(state, wanted, missing)
        where source is not null
        from copy in Enumerable.Range(1, BatchesOfASize)
        select new ExtraSize(
            string.Create(CultureInfo.InvariantCulture, $"extra {wanted.Model} {missing} {copy}"),
            wanted.Model,
            wanted.Accepted[0],
            missing,
            source.Value.Source,
            source.Value.Blanks
        );

    /// <summary>The first source with blanks enough for so many missing reeds, or for the largest batch there may be.</summary>
    private static (BlankSource Source, int Blanks)? SourceFor(ShopState state, PeggedReeds wanted, int missing)
    {
        var request = new PromiseRequest([], Cover, 0);
        var line = new PromiseLine(wanted.Model, wanted.Accepted[0], missing);
        var most = Math.Min(state.MostBlanksPerBatch, BlanksNeeded.MostSensible(missing));
        foreach (var source in BlankSource.Of(state, wanted.Model))
        {
            var needed = BlanksNeeded.Fewest(
                length =>
                    state.Covers.Of(state, request, line, line.Strength, source.Lot, source.FirstStep, missing, length),
                Cover,
                most
            );
            var blanks = needed?.Blanks ?? most;
            if (blanks <= source.Blanks)
            {
                return (source, blanks);
            }
        }

        return null;
    }
}
