using Microsoft.AspNetCore.Antiforgery;
using ReedShop.Platform.Layout;

namespace ReedShop.Platform.Http;

/// <summary>
/// Checks the antiforgery token of everything a page can send. One place for all, because the framework checks only
/// the endpoints that bind a form.
/// </summary>
internal sealed class FormGuard(RequestDelegate next, IAntiforgery antiforgery)
{
    public async Task InvokeAsync(HttpContext http)
    {
        if (IsGuarded(http.Request) && !await antiforgery.IsRequestValidAsync(http))
        {
            await Faults.Answer(http, new Refusal(RefusalKind.Unreadable, FrameTexts.Say["OpenTooLong"]));
            return;
        }

        await next(http);
    }

    private static bool IsGuarded(HttpRequest request) =>
        !HttpMethods.IsGet(request.Method)
        && !HttpMethods.IsHead(request.Method)
        && !HttpMethods.IsOptions(request.Method)
        && !request.Path.IsForScripts()
        && !request.Path.IsWebhook();
}
