using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Accounts;

public static class AccountsSetup
{
    /// <summary>Asks for the token under /api and for the cookie everywhere else: neither opens the other's door.</summary>
    private const string ByAddress = "by-address";

    private const int MostWrongPasswords = 5;
    private static readonly TimeSpan LockedOut = TimeSpan.FromMinutes(15);
    private static readonly TimeSpan SignedIn = TimeSpan.FromDays(30);

    public static void AddAccounts(this IHostApplicationBuilder builder)
    {
        var services = builder.Services;
        services
            .AddAuthentication(ByAddress)
            .AddPolicyScheme(ByAddress, null, scheme => scheme.ForwardDefaultSelector = SchemeFor)
            .AddScheme<AuthenticationSchemeOptions, OwnerTokenHandler>(Access.OwnerToken, null)
            .AddIdentityCookies(cookies => cookies.ApplicationCookie!.Configure(Configure));
        services
            .AddAuthorizationBuilder()
            .AddPolicy(
                Access.OwnerToken,
                policy => policy.AddAuthenticationSchemes(Access.OwnerToken).RequireAuthenticatedUser()
            )
            .AddPolicy(
                Access.OwnerCookie,
                policy =>
                    policy.AddAuthenticationSchemes(IdentityConstants.ApplicationScheme).RequireAuthenticatedUser()
            );
        services
            .AddIdentityCore<IdentityUser>(Configure)
            .AddEntityFrameworkStores<ShopDb>()
            .AddSignInManager()
            .AddDefaultTokenProviders();
        services.AddSingleton<OwnerPresence>();
        services.AddSingleton<FirstRunCode>();
        services.AddScoped<OwnerAccount>();
        services.AddScoped<FirstRun>();
        services.AddHostedService<FirstRunNotice>();
    }

    public static void UseAccounts(this IApplicationBuilder app) => app.UseMiddleware<FirstRunGuide>();

    private static string SchemeFor(HttpContext http) =>
        http.Request.Path.IsForScripts() ? Access.OwnerToken : IdentityConstants.ApplicationScheme;

    private static void Configure(IdentityOptions identity)
    {
        // Length is what makes a password hard to guess; rules about signs only make it hard to remember.
        identity.Password.RequiredLength = OwnerAccount.LeastPasswordCharacters;
        identity.Password.RequireDigit = false;
        identity.Password.RequireLowercase = false;
        identity.Password.RequireUppercase = false;
        identity.Password.RequireNonAlphanumeric = false;
        identity.Lockout.MaxFailedAccessAttempts = MostWrongPasswords;
        identity.Lockout.DefaultLockoutTimeSpan = LockedOut;
    }

    private static void Configure(CookieAuthenticationOptions cookie)
    {
        cookie.Cookie.Name = "reedshop.owner";
        cookie.Cookie.HttpOnly = true;
        cookie.Cookie.SameSite = SameSiteMode.Lax;
        cookie.ExpireTimeSpan = SignedIn;
        cookie.SlidingExpiration = true;
        cookie.LoginPath = AccountPages.SignInPath;
        cookie.AccessDeniedPath = AccountPages.SignInPath;
        cookie.ReturnUrlParameter = "returnUrl";
    }
}
