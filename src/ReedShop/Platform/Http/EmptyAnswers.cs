using Microsoft.AspNetCore.Diagnostics;
using static ReedShop.Platform.Layout.FrameTexts;

namespace ReedShop.Platform.Http;

/// <summary>Gives a body to the answers that routing and authorization leave without one.</summary>
internal static class EmptyAnswers
{
    public static Task Fill(StatusCodeContext context) =>
        Refusal(context.HttpContext.Response.StatusCode) is { } refusal
            ? Faults.Answer(context.HttpContext, refusal)
            : Task.CompletedTask;

    private static Refusal? Refusal(int status) =>
        status switch
        {
            StatusCodes.Status401Unauthorized or StatusCodes.Status403Forbidden => new Refusal(
                RefusalKind.NotSignedIn,
                Say["Empty.owners"],
                "Authorization",
                "Bearer and the owner's token"
            ),
            StatusCodes.Status404NotFound => new Refusal(RefusalKind.NotFound, Say["Empty.nothingHere"]),
            StatusCodes.Status405MethodNotAllowed => new Refusal(RefusalKind.WrongMethod, Say["Empty.otherMethod"]),
            StatusCodes.Status413PayloadTooLarge => new Refusal(RefusalKind.TooLarge, Say["Empty.tooLarge"]),
            StatusCodes.Status415UnsupportedMediaType => new Refusal(
                RefusalKind.Unreadable,
                Say["Empty.otherKind"],
                "Content-Type"
            ),
            StatusCodes.Status400BadRequest => new Refusal(RefusalKind.Unreadable, Say["Empty.unreadable"]),
            _ => null,
        };
}
