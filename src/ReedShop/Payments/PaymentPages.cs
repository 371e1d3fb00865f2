using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Payments;

public static class PaymentPages
{
    private const string Orders = "/bench/orders";

    public static void MapPaymentPages(this IEndpointRouteBuilder routes) =>
        routes
            .MapPost(Orders + "/{id}/paid", MarkPaid)
            .RequireAuthorization(Access.OwnerCookie)
            .ExcludeFromDescription();

    private static async Task<IResult> MarkPaid(
        string id,
        IFormCollection _,
        Invoices invoices,
        CancellationToken cancel
    )
    {
        var paid = await invoices.MarkPaid(id, VersionChecks.None, cancel);
        return paid.Refusal is { } refusal ? Pages.Refuse(refusal, Orders, Orders) : Pages.Go(Orders);
    }
}
