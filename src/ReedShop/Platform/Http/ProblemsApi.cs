using Microsoft.AspNetCore.Http.HttpResults;

namespace ReedShop.Platform.Http;

/// <summary>One kind of refusal, as the `type` of a problem document leads to it.</summary>
public sealed record ProblemView(string Type, string Title, int Status, string Meaning)
{
    public static string TypeOf(RefusalKind kind) => $"/problems/{kind.Slug}";

    public static ProblemView Of(RefusalKind kind) => new(TypeOf(kind), kind.Title, kind.Status, kind.Meaning);
}

/// <summary>The published list of refusals.</summary>
public static class ProblemsApi
{
    public static void MapProblems(this IEndpointRouteBuilder routes)
    {
        var problems = routes.MapGroup("/problems").WithTags("Problems");
        problems.MapGet("", List).WithSummary("Every kind of refusal.");
        problems.MapGet("{slug}", Read).WithSummary("One kind of refusal, and what to do about it.");
    }

    private static Ok<IEnumerable<ProblemView>> List() => TypedResults.Ok(RefusalKind.All.Select(ProblemView.Of));

    private static Results<Ok<ProblemView>, Refused> Read(string slug) =>
        RefusalKind.All.FirstOrDefault(kind => kind.Slug == slug) is { } found
            ? TypedResults.Ok(ProblemView.Of(found))
            : (Refused)Refusal.Missing("such kind of refusal");
}
