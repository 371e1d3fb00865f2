using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Insight;

public static class InsightApi
{
    private const double UsualConfidence = 0.9;
    private const string Cane = "cane";
    private const string Shelf = "shelf";

    public static void MapInsight(this IEndpointRouteBuilder routes)
    {
        var insight = routes.MapGroup("/api").WithTags("Insight").RequireAuthorization(Access.OwnerToken);
        insight
            .MapGet("yields", Yields)
            .WithSummary("Share that survives each step and where reeds land, with intervals.");
        insight
            .MapGet("sizing", Sizing)
            .RequireRateLimiting(Computing.Policy)
            .WithSummary("How many blanks to start for so many reeds.");
        insight
            .MapGet("sizing/joint", Joint)
            .RequireRateLimiting(Computing.Policy)
            .WithSummary("Batches of one aim or two that cover several strengths together.")
            .WithDescription("Each need is a strength and a count, such as need=3.5:10&need=4:2.");
        insight
            .MapGet("promises-kept", PromisesKept)
            .WithSummary("How often promises were kept, against the chances that were told with them.");
        routes.MapInsightPages();
    }

    private static async Task<Results<Ok<IReadOnlyList<YieldsView>>, Refused>> Yields(
        YieldReader reader,
        CancellationToken cancel,
        string? model = null
    ) => (await reader.Yields(model, cancel)).OkOrRefused();

    private static async Task<Results<Ok<SizingView>, Refused>> Sizing(
        string model,
        string strength,
        int quantity,
        SizingReader reader,
        CancellationToken cancel,
        double confidence = UsualConfidence,
        string from = Cane,
        string? aim = null,
        int runs = 1
    )
    {
        if (!Strength.TryParse(strength, out var wanted))
        {
            return (Refused)Refusal.Invalid("strength", "The strength cannot be used.", Strength.Allowed);
        }

        if (!Strength.TryParse(aim ?? strength, out var toward))
        {
            return (Refused)Refusal.Invalid("aim", "The aim cannot be used.", Strength.Allowed);
        }

        var source = Source(from);
        if (source.Refusal is { } refusal)
        {
            return (Refused)refusal;
        }

        var wish = new SizingWish(model, wanted, quantity, confidence, source.Value, toward, runs);
        return (await reader.Size(wish, cancel)).OkOrRefused();
    }

    private static async Task<Results<Ok<JointSizingView>, Refused>> Joint(
        string model,
        string[] need,
        SizingReader reader,
        CancellationToken cancel,
        double confidence = UsualConfidence,
        string from = Cane
    )
    {
        var counts = Counts(need);
        var source = Source(from);
        return (counts.Refusal ?? source.Refusal) is { } refusal
            ? (Refused)refusal
            : (await reader.SizeJointly(model, counts.Value, confidence, source.Value, cancel)).OkOrRefused();
    }

    private static async Task<Results<Ok<PromisesKeptView>, Refused>> PromisesKept(
        PromisesKeptReader reader,
        CancellationToken cancel
    ) => (await reader.Read(cancel)).OkOrRefused();

    private static Result<BlanksFrom> Source(string from) =>
        from switch
        {
            Cane => BlanksFrom.Cane,
            Shelf => BlanksFrom.Shelf,
            _ => Refusal.Invalid("from", "Blanks do not come from there.", $"{Cane} or {Shelf}"),
        };

    private static Result<IReadOnlyDictionary<Strength, int>> Counts(string[] need)
    {
        var counts = new Dictionary<Strength, int>();
        foreach (var text in need)
        {
            if (
                text.Split(':') is not [var strength, var count]
                || !Strength.TryParse(strength, out var wanted)
                || !int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out var reeds)
                || !counts.TryAdd(wanted, reeds)
            )
            {
                return Refusal.Invalid(
                    "need",
                    $"“{text}” is not a need.",
                    "a strength and a count, such as 3.5:10, each strength once"
                );
            }
        }

        return counts;
    }
}
