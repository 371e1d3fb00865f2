using Microsoft.AspNetCore.Components;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Opening;

/// <summary>The pages of the walk as answers: shown as it stands, or again with what was typed and why it was refused.</summary>
public sealed class WalkPages(WalkReader reader)
{
    public async Task<IResult> Show<TPage>(WalkAnswer answer, CancellationToken cancel)
        where TPage : IComponent =>
        await reader.Read(cancel) is { } state
            ? Pages.Show<TPage>(
                new
                {
                    State = state,
                    answer.Typed,
                    answer.Refusal,
                },
                answer.Refusal
            )
            : NoShop();

    /// <summary>On to the next step, or the same page again.</summary>
    public Task<IResult> After<TPage>(WalkStep step, IFormCollection form, Refusal? refusal, CancellationToken cancel)
        where TPage : IComponent =>
        refusal is null
            ? Task.FromResult(Pages.Go((step.After ?? step).Address))
            : Show<TPage>(new WalkAnswer(form, refusal), cancel);

    public static IResult NoShop() => Pages.Refuse(ShopCommands.NoShopYet, "/", OpeningPages.Address);
}

/// <summary>What was typed, and why it was refused; neither when a page is opened.</summary>
public sealed record WalkAnswer(IFormCollection? Typed, Refusal? Refusal)
{
    public static readonly WalkAnswer None = new(null, null);
}
