using Microsoft.AspNetCore.Mvc;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Workshop;

namespace ReedShop.Opening;

/// <summary>The walk through a new shop, from its hours to its first promise. Every step saves; it can be left at any.</summary>
public static class OpeningPages
{
    public const string Address = "/bench/opening";

    /// <summary>Two files of past batches in one form.</summary>
    private const long MostBytes = 2 * HistoryApi.MostBytes;

    public static void MapOpeningPages(this IEndpointRouteBuilder routes)
    {
        var walk = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        walk.MapGet("", GoOn);
        Map<WalkShopPage>(walk, WalkStep.Shop, SettingsSteps.SaveShop);
        Map<WalkHoursPage>(walk, WalkStep.Hours, SettingsSteps.SaveHours);
        Map<WalkModelPage>(walk, WalkStep.Model, GoodsSteps.AddModel);
        Map<WalkCanePage>(walk, WalkStep.Cane, GoodsSteps.AddCane);
        walk.MapGet(WalkStep.Past.Key, PastSteps.Show).RequireRateLimiting(Computing.Policy);
        walk.MapPost(WalkStep.Past.Key, PastSteps.BringIn).WithMetadata(new RequestSizeLimitAttribute(MostBytes));
        walk.MapPost("sureness", PastSteps.SetConfidence);
        walk.MapGet("past/{kind}.csv", PastSteps.EmptyFile);
        walk.MapGet(WalkStep.Next.Key, PastSteps.ShowNext).RequireRateLimiting(Computing.Policy);
    }

    private static void Map<TPage>(IEndpointRouteBuilder walk, WalkStep step, Delegate save)
        where TPage : Microsoft.AspNetCore.Components.IComponent
    {
        walk.MapGet(
            step.Key,
            (WalkPages pages, CancellationToken cancel) => pages.Show<TPage>(WalkAnswer.None, cancel)
        );
        walk.MapPost(step.Key, save);
    }

    /// <summary>Takes the walk up where it was left.</summary>
    private static async Task<IResult> GoOn(WalkReader reader, CancellationToken cancel) =>
        await reader.Read(cancel) is { } state ? Pages.Go(state.Open.Address) : WalkPages.NoShop();
}
