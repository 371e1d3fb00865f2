using System.Globalization;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Workshop;

namespace ReedShop.Insight;

public static class InsightPages
{
    public const string Address = "/bench/yields";
    public const string KeptAddress = "/bench/promises";

    public static void MapInsightPages(this IEndpointRouteBuilder routes)
    {
        var yields = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        yields.MapGet("", Show).RequireRateLimiting(Computing.Policy);
        yields.MapPost("markers", SetMarker);
        routes.MapGet(KeptAddress, ShowKept).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        yields.MapPost("markers/{id}/remove", RemoveMarker);
    }

    /// <summary>The answer writes nothing, so the question is a GET and can be kept as an address.</summary>
    private static async Task<IResult> Show(
        YieldPageReader pages,
        SizingReader sizing,
        [AsParameters] SizingQuestion question,
        CancellationToken cancel
    ) =>
        await pages.Show(
            question,
            question.IsAsked ? await question.Answer(sizing, cancel) : default(Result<SizingAnswered>?),
            null,
            null,
            cancel
        );

    private static async Task<IResult> ShowKept(PromisesKeptReader reader, CancellationToken cancel)
    {
        var kept = await reader.Read(cancel);
        return kept.Refusal is { } refusal
            ? Pages.Refuse(refusal, "/", KeptAddress)
            : Pages.Show<PromisesKeptPage>(new { Kept = kept.Value });
    }

    private static async Task<IResult> SetMarker(
        IFormCollection form,
        MarkerCommands markers,
        YieldPageReader pages,
        CancellationToken cancel
    )
    {
        var wish = Read(form);
        var set = wish.Refusal is { } fault ? fault : await markers.Set(wish.Value, cancel);
        return set.Refusal is { } refusal
            ? await pages.Show(new SizingQuestion(), null, form, refusal, cancel)
            : Pages.Go(Address);
    }

    private static async Task<IResult> RemoveMarker(string id, MarkerCommands markers, CancellationToken cancel)
    {
        await markers.Remove(id, cancel);
        return Pages.Go(Address);
    }

    private static Result<MarkerWish> Read(IFormCollection form)
    {
        DateOnly? date = null;
        if (form.Text("date") is { Length: > 0 } typed)
        {
            if (
                !DateOnly.TryParseExact(
                    typed,
                    "yyyy-MM-dd",
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.None,
                    out var day
                )
            )
            {
                return Refusal.Invalid("date", "From which day on?", "a date such as 2027-03-01");
            }

            date = day;
        }

        return new MarkerWish(form.Text("what"), form.Text("model"), date);
    }
}
