using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Shop;

namespace ReedShop.Accounts;

/// <summary>The pages on which the owner comes and goes.</summary>
public static class AccountPages
{
    public const string SignInPath = "/sign-in";
    public const string FirstRunPath = "/first-run";
    public const string AccountPath = "/account";
    private const string Home = "/bench/week";

    /// <summary>Where the walk through a new shop goes on.</summary>
    private const string Opening = "/bench/opening";

    public static void MapAccounts(this IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup("").ExcludeFromDescription();
        pages.MapGet(SignInPath, ShowSignIn);
        pages.MapPost(SignInPath, SignIn);
        pages.MapPost("/sign-out", SignOut);
        pages.MapGet(AccountPath, ShowAccount).RequireAuthorization(Access.OwnerCookie);
        pages.MapPost(AccountPath, ChangePassword).RequireAuthorization(Access.OwnerCookie);
        pages.MapGet(FirstRunPath, ShowFirstRun);
        pages.MapPost(FirstRunPath, Open);
    }

    private static RazorComponentResult<SignInPage> ShowSignIn(string? returnUrl) => SignInForm(null, returnUrl);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<SignInPage>>> SignIn(
        [FromForm] string? password,
        [FromForm] string? returnUrl,
        OwnerAccount account
    )
    {
        var outcome = await account.SignIn(password);
        if (outcome.Succeeded)
        {
            return TypedResults.LocalRedirect(RedirectHttpResult.IsLocalUrl(returnUrl) ? returnUrl! : Home);
        }

        var trouble = outcome.IsLockedOut
            ? "Too many wrong passwords. Wait a quarter of an hour and try again."
            : "That is not the password.";
        return SignInForm(trouble, returnUrl);
    }

    private static async Task<RedirectHttpResult> SignOut(OwnerAccount account)
    {
        await account.SignOut();
        return TypedResults.LocalRedirect(SignInPath);
    }

    private static RazorComponentResult<AccountPage> ShowAccount() => new(new { });

    private static async Task<RazorComponentResult<AccountPage>> ChangePassword(
        [FromForm] string? current,
        [FromForm] string? password,
        OwnerAccount account
    )
    {
        var refusal = await account.ChangePassword(current, password);
        return new(new { Refusal = refusal, Changed = refusal is null })
        {
            StatusCode = refusal?.Kind.Status ?? StatusCodes.Status200OK,
        };
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<FirstRunPage>>> ShowFirstRun(
        OwnerAccount account,
        ShopStore shops,
        CancellationToken cancel
    ) =>
        await account.Exists()
            ? TypedResults.LocalRedirect(SignInPath)
            : await FirstRunForm(new FirstRunForm(), null, shops, cancel);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<FirstRunPage>>> Open(
        [FromForm] FirstRunForm form,
        FirstRun firstRun,
        OwnerAccount account,
        ShopStore shops,
        CancellationToken cancel
    )
    {
        var isNew = await shops.Find(cancel) is null;
        var opened = await firstRun.Open(form, cancel);
        if (opened.Refusal is { } refusal)
        {
            return await FirstRunForm(form, refusal, shops, cancel);
        }

        await account.SignIn(form.Password);
        return TypedResults.LocalRedirect(isNew ? Opening : Home);
    }

    private static RazorComponentResult<SignInPage> SignInForm(string? trouble, string? returnUrl) =>
        new(new { Trouble = trouble, ReturnUrl = returnUrl })
        {
            StatusCode = trouble is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };

    private static async Task<RazorComponentResult<FirstRunPage>> FirstRunForm(
        FirstRunForm form,
        Refusal? refusal,
        ShopStore shops,
        CancellationToken cancel
    ) =>
        new(
            new
            {
                Form = form,
                AsksForShop = await shops.Find(cancel) is null,
                Refusal = refusal,
            }
        )
        {
            StatusCode = refusal?.Kind.Status ?? StatusCodes.Status200OK,
        };
}
