using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Messages;

/// <summary>What did not reach its reader, for the owner to look at and to send again.</summary>
public static class UndeliveredPages
{
    public const string Address = "/bench/messages";

    public static void MapUndeliveredPages(this IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        pages.MapGet("", Show);
        pages.MapPost("again", AllAgain);
        pages.MapPost("{id:long}/again", Again);
    }

    private static async Task<IResult> Show(OutboxStore outbox, CancellationToken cancel, int? again = null) =>
        Pages.Show<UndeliveredPage>(
            new
            {
                Messages = (await outbox.Undelivered(cancel)).Select(MessageView.Of).ToArray(),
                Again = again is not null,
            }
        );

    private static async Task<IResult> AllAgain(OutboxStore outbox, CancellationToken cancel)
    {
        await outbox.TryAllAgain(cancel);
        return Pages.Go($"{Address}?again=1");
    }

    /// <summary>Who was faster, or the next minute, has sent it: the page then no longer shows it.</summary>
    private static async Task<IResult> Again(long id, OutboxStore outbox, CancellationToken cancel)
    {
        await outbox.TryAgain(id, cancel);
        return Pages.Go($"{Address}?again=1");
    }
}
