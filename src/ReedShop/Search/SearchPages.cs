using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Search;

public static class SearchPages
{
    public const string Address = "/bench/search";

    /// <summary>
    /// By GET, though a buyer's name may stand in the address: the maker can go back to what was found, and keep a search
    /// for later. The address is seen by the maker's own browser only: requests are logged without what follows the
    /// question mark, answers are not kept by caches, and no other site is told where its visitor comes from.
    /// </summary>
    public static void MapSearchPages(this IEndpointRouteBuilder routes) =>
        routes.MapGet(Address, Show).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();

    private static async Task<IResult> Show(Searching searching, CancellationToken cancel, string? q = null)
    {
        if (string.IsNullOrWhiteSpace(q))
        {
            return Page("", null, null);
        }

        var found = await searching.Find(q, cancel);
        return found.Refusal is { } refusal ? Page(q, null, refusal)
            : Searching.Straight(q, found.Value) is { } page ? Pages.Go(page)
            : Page(q, found.Value, null);
    }

    private static RazorComponentResult Page(string text, Found? found, Refusal? refusal) =>
        Pages.Show<SearchPage>(
            new
            {
                Text = text,
                Found = found,
                Refusal = refusal,
            },
            refusal
        );
}
