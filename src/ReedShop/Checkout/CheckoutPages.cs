using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Checkout;

/// <summary>The buyer's order form, and cancelling from both sides.</summary>
public static class CheckoutPages
{
    private const string OwnerOrders = "/bench/orders";

    public static void MapCheckoutPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/", ShowForm).ExcludeFromDescription();
        routes.MapPost("/", PostForm).RequireRateLimiting(Computing.Policy).ExcludeFromDescription();
        routes.MapPost("/orders/check", CheckForm).ExcludeFromDescription();
        routes.MapPost("/orders/{id}/cancel", CancelByBuyer).ExcludeFromDescription();
        routes.MapPost("/orders/{id}/reply", ReplyByBuyer).ExcludeFromDescription();
        routes
            .MapPost(OwnerOrders + "/{id}/cancel", CancelByOwner)
            .RequireAuthorization(Access.OwnerCookie)
            .ExcludeFromDescription();
    }

    private static Task<IResult> ShowForm(Ordering ordering, CancellationToken cancel, string? quote = null) =>
        string.IsNullOrEmpty(quote) ? ordering.Page(OrderForm.Empty, null, null, cancel) : ordering.Show(quote, cancel);

    private static Task<IResult> PostForm(IFormCollection form, Ordering ordering, CancellationToken cancel)
    {
        var typed = OrderForm.Read(form).WithoutSamplers();
        return form.Text("do") switch
        {
            "add" => ordering.Page(typed.WithAnotherLine(), null, null, cancel),
            "look" => ordering.Look(typed.WithoutEmptyLines(), cancel),
            "order" => ordering.Order(typed.WithoutEmptyLines(), cancel),
            _ => ordering.See(typed.WithoutEmptyLines(), null, cancel),
        };
    }

    /// <summary>What is wrong with the form so far, for a buyer who is still typing: nothing is stored.</summary>
    private static async Task<IResult> CheckForm(IFormCollection form, FormCheck check, CancellationToken cancel) =>
        Pages.Show<FieldNotes>(new { Faults = await check.Of(OrderForm.Read(form), cancel) });

    private static async Task<IResult> CancelByBuyer(
        string id,
        IFormCollection _,
        Cancelling cancelling,
        CancellationToken cancel
    ) => Done(await cancelling.Cancel(id, "buyer", VersionChecks.None, cancel), $"/orders/{id}", null);

    private static async Task<IResult> ReplyByBuyer(
        string id,
        IFormCollection form,
        Cancelling cancelling,
        CancellationToken cancel
    ) =>
        ReplyWish.Parse(form.Text("reply")) is { } reply
            ? Done(
                await cancelling.Reply(id, new ReplyWish(reply, form.Text("note")), VersionChecks.None, cancel),
                $"/orders/{id}",
                null
            )
            : Pages.Refuse(
                Refusal.Invalid("reply", CheckoutTexts.Say["AnswerUnreadable"], CheckoutTexts.Say["AnswerIsOne"]),
                $"/orders/{id}"
            );

    private static async Task<IResult> CancelByOwner(
        string id,
        IFormCollection _,
        Cancelling cancelling,
        CancellationToken cancel
    ) => Done(await cancelling.Cancel(id, "owner", VersionChecks.None, cancel), OwnerOrders, OwnerOrders);

    private static IResult Done<T>(Result<T> result, string address, string? here) =>
        result.Refusal is { } refusal ? Pages.Refuse(refusal, address, here) : Pages.Go(address);
}
