using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Shop;

/// <summary>The copies of the database, for the owner to see that there are some, and to make one before a risk.</summary>
public static class BackupsPages
{
    public const string Address = "/bench/backups";

    public static void MapBackupsPages(this IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        pages.MapGet("", Show);
        pages.MapPost("", Make);
    }

    private static RazorComponentResult Show(Backups backups, int? made = null) =>
        Pages.Show<BackupsPage>(
            new
            {
                All = backups.All(),
                backups.Kept,
                backups.Folder,
                Made = made is not null,
            }
        );

    private static async Task<IResult> Make(Backups backups, ShopStore shops, ShopClock clock, CancellationToken cancel)
    {
        if (backups.Kept > 0 && await shops.Find(cancel) is { } shop)
        {
            await backups.Make(clock.Today(shop.Zone), cancel);
        }

        return Pages.Go($"{Address}?made=1");
    }
}
