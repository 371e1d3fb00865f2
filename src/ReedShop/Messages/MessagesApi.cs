using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Messages;

/// <summary>A message that has not reached its reader yet.</summary>
/// <param name="NextTryUtc">Missing once it was tried so often that it waits for the owner.</param>
public sealed record MessageView(
    long Id,
    string Kind,
    string Subject,
    string To,
    string Title,
    DateTime CreatedUtc,
    int Attempts,
    DateTime? NextTryUtc,
    string? LastError
)
{
    public static MessageView Of(OutboxMessage message) =>
        new(
            message.Id,
            message.Kind,
            message.Subject,
            message.To,
            message.Title,
            message.CreatedUtc,
            message.Attempts,
            message.Attempts < OutboxStore.MostAttempts ? message.NextTryUtc : null,
            message.LastError
        );
}

public static class MessagesApi
{
    public static void MapMessagesApi(this IEndpointRouteBuilder routes)
    {
        var messages = routes.MapGroup("/api/messages").WithTags("Messages").RequireAuthorization(Access.OwnerToken);
        messages.MapGet("", List).WithSummary("Messages not delivered.");
        messages.MapPost("{id:long}/retry", RetryOne).WithSummary("Tries one message not delivered again.");
        messages.MapPost("retry", Retry).WithSummary("Tries all messages not delivered again, those given up too.");
    }

    private static async Task<Ok<IEnumerable<MessageView>>> List(OutboxStore outbox, CancellationToken cancel) =>
        TypedResults.Ok((await outbox.Undelivered(cancel)).Select(MessageView.Of));

    private static async Task<Results<Ok<IEnumerable<MessageView>>, Refused>> RetryOne(
        long id,
        OutboxStore outbox,
        CancellationToken cancel
    ) =>
        await outbox.TryAgain(id, cancel)
            ? await List(outbox, cancel)
            : (Refused)Refusal.Missing("such message that waits");

    private static async Task<Ok<IEnumerable<MessageView>>> Retry(OutboxStore outbox, CancellationToken cancel)
    {
        await outbox.TryAllAgain(cancel);
        return await List(outbox, cancel);
    }
}
