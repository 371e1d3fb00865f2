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
        if (IsGuarded(http.Request) && await Fault(http) is { } refusal)
        {
            await Faults.Answer(http, refusal);
            return;
        }

        await next(http);
    }

    private async Task<Refusal?> Fault(HttpContext http)
    {
        try
        {
            return await antiforgery.IsRequestValidAsync(http)
                ? null
                : new Refusal(RefusalKind.Unreadable, FrameTexts.Say["OpenTooLong"]);
        }
        catch (AntiforgeryValidationException fault) when (fault.InnerException is BadHttpRequestException unread)
        {
            // The token is read from the form, and a form that is too large never gets that far.
            return Unreadable.Of(http, unread);
        }
        catch (Exception fault) when (fault is InvalidDataException || fault.InnerException is InvalidDataException)
        {
            // More fields than any page has, or what no form can hold.
            return Unreadable.Of(http, new BadHttpRequestException(fault.Message, fault));
        }
    }

    private static bool IsGuarded(HttpRequest request) =>
        !HttpMethods.IsGet(request.Method)
        && !HttpMethods.IsHead(request.Method)
        && !HttpMethods.IsOptions(request.Method)
        && !request.Path.IsForScripts()
        && !request.Path.IsOfLetters()
        && !request.Path.IsWebhook();
}
