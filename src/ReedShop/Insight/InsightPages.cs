using System.Globalization;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Workshop;

namespace ReedShop.Insight;

/// <summary>The sizing question as it was typed.</summary>
public sealed record SizingQuestion(string? Model, string? Strength, string? Quantity, string? Confidence)
{
    public const int UsualConfidencePercent = 90;

    public bool IsAsked => !string.IsNullOrWhiteSpace(Quantity);
}

public static class InsightPages
{
    public const string Address = "/bench/yields";

    public static void MapInsightPages(this IEndpointRouteBuilder routes)
    {
        var yields = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        yields.MapGet("", Show);
        yields.MapPost("markers", SetMarker);
        yields.MapPost("markers/{id}/remove", RemoveMarker);
    }

    /// <summary>The answer writes nothing, so the question is a GET and can be kept as an address.</summary>
    private static async Task<IResult> Show(
        YieldPageReader pages,
        YieldReader reader,
        CancellationToken cancel,
        string? model = null,
        string? strength = null,
        string? quantity = null,
        string? confidence = null
    )
    {
        var question = new SizingQuestion(model, strength, quantity, confidence);
        return question.IsAsked
            ? await pages.Show(question, await Size(reader, question, cancel), null, null, cancel)
            : await pages.Show(question, null, null, null, cancel);
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
            ? await pages.Show(new SizingQuestion(null, null, null, null), null, form, refusal, cancel)
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

    private static async Task<Result<SizingView>> Size(
        YieldReader reader,
        SizingQuestion asked,
        CancellationToken cancel
    )
    {
        if (!Strength.TryParse(asked.Strength, out var strength))
        {
            return Refusal.Invalid("strength", "The strength cannot be used.", Strength.Allowed);
        }

        return IsWhole(asked.Quantity, out var quantity) && IsWhole(asked.Confidence, out var percent)
            ? await reader.Sizing(asked.Model ?? "", strength, quantity, percent / 100d, cancel)
            : Refusal.Invalid("quantity", "How many reeds, how surely?", "whole numbers, such as 10 and 90 in 100");
    }

    private static bool IsWhole(string? text, out int number) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number);
}
