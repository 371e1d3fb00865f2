using System.Globalization;
using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

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

    public static void MapInsightPages(this IEndpointRouteBuilder routes) =>
        routes.MapGet(Address, Show).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();

    /// <summary>The answer writes nothing, so the question is a GET and can be kept as an address.</summary>
    private static async Task<IResult> Show(
        YieldReader reader,
        CatalogueStore catalogue,
        CancellationToken cancel,
        string? model = null,
        string? strength = null,
        string? quantity = null,
        string? confidence = null
    )
    {
        var yields = await reader.Yields(null, cancel);
        if (yields.Refusal is { } missing)
        {
            return Pages.Refuse(missing, "/", Address);
        }

        var question = new SizingQuestion(model, strength, quantity, confidence);
        Result<SizingView>? answer = question.IsAsked
            ? await Size(reader, question, cancel)
            : default(Result<SizingView>?);
        return Pages.Show<YieldsPage>(
            new
            {
                Yields = yields.Value,
                Models = await catalogue.All(cancel),
                Question = question,
                Sizing = answer is { IsRefused: false } sized ? sized.Value : null,
                answer?.Refusal,
            },
            answer?.Refusal
        );
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
