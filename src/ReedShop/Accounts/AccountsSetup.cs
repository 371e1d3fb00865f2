using Microsoft.AspNetCore.Authentication;
using ReedShop.Platform.Http;

namespace ReedShop.Accounts;

public static class AccountsSetup
{
    public static void AddAccounts(this IHostApplicationBuilder builder)
    {
        builder
            .Services.AddAuthentication(Access.OwnerToken)
            .AddScheme<AuthenticationSchemeOptions, OwnerTokenHandler>(Access.OwnerToken, null);
        builder
            .Services.AddAuthorizationBuilder()
            .AddPolicy(
                Access.OwnerToken,
                policy => policy.AddAuthenticationSchemes(Access.OwnerToken).RequireAuthenticatedUser()
            );
    }
}
