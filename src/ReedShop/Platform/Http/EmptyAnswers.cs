using Microsoft.AspNetCore.Diagnostics;

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
                "This address is the owner's.",
                "Authorization",
                "Bearer and the owner's token"
            ),
            StatusCodes.Status404NotFound => new Refusal(RefusalKind.NotFound, "There is nothing at this address."),
            StatusCodes.Status405MethodNotAllowed => new Refusal(
                RefusalKind.WrongMethod,
                "This address takes another method."
            ),
            StatusCodes.Status413PayloadTooLarge => new Refusal(RefusalKind.TooLarge, "The request is too large."),
            StatusCodes.Status415UnsupportedMediaType => new Refusal(
                RefusalKind.Unreadable,
                "The body is of another kind.",
                "Content-Type"
            ),
            StatusCodes.Status400BadRequest => new Refusal(RefusalKind.Unreadable, "The request could not be read."),
            _ => null,
        };
}
