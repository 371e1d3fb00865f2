using System.Security.Claims;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Accounts;

/// <summary>The owner's token for scripts, `Authorization: Bearer ...`, under /api only.</summary>
internal sealed class OwnerTokenHandler(
    IOptions<ReedShopOptions> shop,
    IOptionsMonitor<AuthenticationSchemeOptions> options,
    ILoggerFactory logger,
    UrlEncoder encoder
) : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    private const string Prefix = "Bearer ";

    protected override Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var header = Request.Headers.Authorization.ToString();
        if (!header.StartsWith(Prefix, StringComparison.OrdinalIgnoreCase))
        {
            return Task.FromResult(AuthenticateResult.NoResult());
        }

        return Task.FromResult(
            IsOwners(header[Prefix.Length..].Trim())
                ? AuthenticateResult.Success(new AuthenticationTicket(Owner(), Scheme.Name))
                : AuthenticateResult.Fail("The token is not the owner's.")
        );
    }

    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.StatusCode = StatusCodes.Status401Unauthorized;
        Response.Headers.Append(HeaderNames.WWWAuthenticate, "Bearer");
        return Task.CompletedTask;
    }

    /// <summary>Compares digests, so that the time taken tells neither the length nor a prefix of the token.</summary>
    private bool IsOwners(string sent) =>
        shop.Value.OwnerToken is { Length: > 0 } token
        && CryptographicOperations.FixedTimeEquals(Digest(sent), Digest(token));

    private static byte[] Digest(string text) => SHA256.HashData(Encoding.UTF8.GetBytes(text));

    private ClaimsPrincipal Owner() => new(new ClaimsIdentity([new Claim(ClaimTypes.Name, "owner")], Scheme.Name));
}
