using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Orders;

/// <summary>Exchanges for scripts and for the forms of both sides.</summary>
public static class ExchangeApi
{
    private const string OwnerOrders = "/bench/orders";

    public static void MapExchanges(this IEndpointRouteBuilder routes)
    {
        var exchange = routes.MapGroup("/api/orders/{id}/exchange").WithTags("Orders");
        exchange
            .MapPost("", Ask)
            .WithSummary("The buyer of a shipped order asks to send unopened reeds back for another strength.");
        exchange
            .MapPost("answer", Answer)
            .RequireAuthorization(Access.OwnerToken)
            .WithSummary("The maker's yes or no with a sentence; the buyer gets one letter.");
        routes.MapPost("/orders/{id}/exchange", AskOnPage).ExcludeFromDescription();
        routes
            .MapPost(OwnerOrders + "/{id}/exchange", AnswerOnPage)
            .RequireAuthorization(Access.OwnerCookie)
            .ExcludeFromDescription();
    }

    private static async Task<Results<Ok<OrderView>, Refused>> Ask(
        string id,
        ExchangeWish wish,
        Exchanging exchanging,
        HttpContext http,
        CancellationToken cancel
    ) => (await exchanging.Ask(id, wish, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<OrderView>, Refused>> Answer(
        string id,
        ExchangeReply reply,
        Exchanging exchanging,
        HttpContext http,
        CancellationToken cancel
    ) => (await exchanging.Answer(id, reply, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<IResult> AskOnPage(
        string id,
        IFormCollection form,
        Exchanging exchanging,
        CancellationToken cancel
    )
    {
        var wish = ReadWish(form);
        var refusal = wish.Refusal ?? (await exchanging.Ask(id, wish.Value, VersionChecks.None, cancel)).Refusal;
        return refusal is null ? Pages.Go($"/orders/{id}#exchange") : Pages.Refuse(refusal, $"/orders/{id}");
    }

    /// <summary>Model and strength come as one choice of the form, such as "clarinet 3.5".</summary>
    private static Result<ExchangeWish> ReadWish(IFormCollection form)
    {
        var reeds = form.Text("reeds").Split(' ');
        return reeds is not [var model, var strength] || !Strength.TryParse(strength, out var sent)
                ? Refusal.Invalid("strength", OrderTexts.Say["NotSent"], OrderTexts.Say["ReedsOfForm"])
            : !Strength.TryParse(form.Text("to"), out var to)
                ? Refusal.Invalid("to", OrderTexts.Say["NoOtherStrength"], OrderTexts.Say["ReedsOfForm"])
            : form.Whole("quantity").Value is not { } quantity
                ? Refusal.Invalid("quantity", OrderTexts.Say["NotSoManySent"], OrderTexts.Say["ReedsOfForm"])
            : new ExchangeWish(model, sent, to, quantity);
    }

    private static async Task<IResult> AnswerOnPage(
        string id,
        IFormCollection form,
        Exchanging exchanging,
        CancellationToken cancel
    )
    {
        var number = form.Whole("number");
        var refusal =
            number.Refusal
            ?? (
                await exchanging.Answer(
                    id,
                    new ExchangeReply(number.Value ?? 0, form.Text("answer") == "yes", form.Text("says")),
                    VersionChecks.None,
                    cancel
                )
            ).Refusal;
        return refusal is null ? Pages.Go(OwnerOrders) : Pages.Refuse(refusal, OwnerOrders, OwnerOrders);
    }
}
