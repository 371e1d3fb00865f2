using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform.Layout;

namespace ReedShop.Platform.Http;

/// <summary>What a request gets that could not be read or that met a fault of ours: never the inside of the program.</summary>
internal sealed partial class Faults(ILogger<Faults> log) : IExceptionHandler
{
    public async ValueTask<bool> TryHandleAsync(
        HttpContext httpContext,
        Exception exception,
        CancellationToken cancellationToken
    )
    {
        if (exception is OperationCanceledException && httpContext.RequestAborted.IsCancellationRequested)
        {
            httpContext.Response.StatusCode = StatusCodes.Status499ClientClosedRequest;
            return true;
        }

        await Answer(httpContext, Refusal(httpContext, exception));
        return true;
    }

    /// <summary>Scripts get the problem document, people a page.</summary>
    public static Task Answer(HttpContext http, Refusal refusal) =>
        http.Request.Path.IsForScripts()
            ? new Refused(refusal).ExecuteAsync(http)
            : Page(http.Request.Path, refusal).ExecuteAsync(http);

    /// <summary>The way back of the maker is the bench, not the page that buyers order on.</summary>
    private static RazorComponentResult Page(PathString path, Refusal refusal) =>
        path.IsForOwner() ? Pages.Refuse(refusal, "/bench/week", path) : Pages.Refuse(refusal, "/");

    private Refusal Refusal(HttpContext http, Exception exception)
    {
        if (exception is BadHttpRequestException unreadable)
        {
            return Unreadable.Of(http, unreadable);
        }

        Broke(exception);
        return new Refusal(RefusalKind.Broken, FrameTexts.Say["FaultOfOurs"]);
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "A request met a fault")]
    private partial void Broke(Exception exception);
}
