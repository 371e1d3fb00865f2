using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.Options;

namespace ReedShop.Platform;

/// <summary>
/// Where people reach the shop, for links in messages: as set, else the address it listens on. Never what a request
/// claims, or anybody could make the shop send links to elsewhere.
/// </summary>
public sealed class PublicAddress(IOptions<ReedShopOptions> options, IServer server)
{
    public string Of(string path) => (options.Value.PublicAddress ?? Listening ?? "").TrimEnd('/') + path;

    private string? Listening => server.Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault();
}
