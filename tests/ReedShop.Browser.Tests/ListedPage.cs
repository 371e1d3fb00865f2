using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Http;

namespace ReedShop.Browser.Tests;

/// <summary>A page of the shop.</summary>
/// <param name="Route">Where it is mapped.</param>
/// <param name="Address">Where it has something to show.</param>
internal sealed record ListedPage(string Route, string Address)
{
    public bool ForOwner => Route.StartsWith("/bench", StringComparison.Ordinal) || Route == "/account";

    /// <summary>Every page but that of the first run, which a shop with an owner does not show.</summary>
    public static IReadOnlyList<ListedPage> All(
        string order,
        string shipped,
        string batch,
        string sitting,
        string day
    ) =>
        [
            new("/", "/"),
            new("/sign-in", "/sign-in"),
            new("/orders/{id}", $"/orders/{order}"),
            new("/orders/{id}", $"/orders/{shipped}"),
            new("/orders/{id}/receipt", $"/orders/{shipped}/receipt"),
            new("/account", "/account"),
            new("/bench/week", "/bench/week"),
            new("/bench/week", $"/bench/week?from=2027-03-01&move={sitting}&to={day}"),
            new("/bench/today", "/bench/today"),
            new("/bench/today", "/bench/today?celsius=20&humidity=65"),
            new("/bench/today", "/bench/today?date=2027-03-06"),
            new("/bench/tonight", "/bench/tonight?minutes=60"),
            new("/bench/orders", "/bench/orders"),
            new("/bench/orders/{id}/watch", $"/bench/orders/{order}/watch"),
            new("/bench/orders/{id}/money", $"/bench/orders/{order}/money"),
            new("/bench/money", "/bench/money"),
            new("/bench/batches", "/bench/batches"),
            new("/bench/batches/{id}", $"/bench/batches/{batch}"),
            new("/bench/drawer", "/bench/drawer"),
            new("/bench/yields", "/bench/yields?model=clarinet&strength=3&quantity=4&confidence=90"),
            new("/bench/promises", "/bench/promises"),
            new("/bench/history", "/bench/history"),
            new("/bench/cane", "/bench/cane"),
            new("/bench/models", "/bench/models"),
            new("/bench/shop", "/bench/shop"),
            new("/bench/shipping", "/bench/shipping"),
            new("/bench/vouchers", "/bench/vouchers"),
            new("/bench/start", "/bench/start"),
            new("/bench/days-off", "/bench/days-off"),
            new("/bench/opening/shop", "/bench/opening/shop"),
            new("/bench/opening/hours", "/bench/opening/hours"),
            new("/bench/opening/model", "/bench/opening/model"),
            new("/bench/opening/cane", "/bench/opening/cane"),
            new("/bench/opening/past", "/bench/opening/past"),
            new("/bench/opening/next", "/bench/opening/next"),
            new("/bench/backups", "/bench/backups"),
            new("/bench/calendar", "/bench/calendar"),
            new("/bench/letters", "/bench/letters"),
            new("/bench/messages", "/bench/messages"),
            new("/bench/search", "/bench/search"),
            new("/bench/search", "/bench/search?q=clarinet"),
        ];

    /// <summary>The routes that a browser may ask for with the owner's cookie.</summary>
    public static IReadOnlyList<string> OwnerRoutes(IServiceProvider services) =>
        [
            .. services
                .GetRequiredService<EndpointDataSource>()
                .Endpoints.OfType<RouteEndpoint>()
                .Where(endpoint => IsRead(endpoint) && IsForOwner(endpoint))
                .Select(endpoint => "/" + endpoint.RoutePattern.RawText!.Trim('/'))
                // A file to fill in is no page.
                .Where(route => !route.EndsWith(".csv", StringComparison.Ordinal))
                .Distinct(StringComparer.Ordinal),
        ];

    private static bool IsRead(RouteEndpoint endpoint) =>
        endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("GET") == true;

    private static bool IsForOwner(RouteEndpoint endpoint) =>
        endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>().Any(door => door.Policy == Access.OwnerCookie);
}
