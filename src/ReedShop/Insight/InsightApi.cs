using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Insight;

public static class InsightApi
{
    private const double UsualConfidence = 0.9;

    public static void MapInsight(this IEndpointRouteBuilder routes)
    {
        var insight = routes.MapGroup("/api").WithTags("Insight").RequireAuthorization(Access.OwnerToken);
        insight
            .MapGet("yields", Yields)
            .WithSummary("Share that survives each step and where reeds land, with intervals.");
        insight.MapGet("sizing", Sizing).WithSummary("How many blanks to start for so many reeds.");
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
        YieldReader reader,
        CancellationToken cancel,
        double confidence = UsualConfidence
    ) =>
        Strength.TryParse(strength, out var wanted)
            ? (await reader.Sizing(model, wanted, quantity, confidence, cancel)).OkOrRefused()
            : (Refused)Refusal.Invalid("strength", "The strength cannot be used.", Strength.Allowed);
}
