using Microsoft.AspNetCore.Diagnostics;
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
            : Pages.Refuse(refusal, "/").ExecuteAsync(http);

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
