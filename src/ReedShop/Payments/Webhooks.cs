using System.Text.Json;
using Microsoft.Extensions.Options;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Payments;

/// <summary>
/// What Stripe tells the shop unasked. A word with a good signature becomes a row, and Stripe an answer; it is worked later.
/// Nothing it says is believed: it only names what Stripe is to be asked about, which is also why its API version does not
/// matter.
/// </summary>
public static class Webhooks
{
    public const string Source = "stripe";
    private const int MostBytes = 256 * 1024;

    public static void MapWebhooks(this IEndpointRouteBuilder routes) =>
        routes.MapPost("/webhooks/stripe", Take).ExcludeFromDescription();

    /// <summary>A word as it is taken down, whichever way it came.</summary>
    public static InboxMessage Message(StripeWord word, DateTime nowUtc) =>
        new()
        {
            Source = Source,
            EventId = word.Id,
            Kind = word.Kind,
            About = word.About,
            ArrivedUtc = nowUtc,
            NextTryUtc = nowUtc,
        };

    private static async Task<IResult> Take(
        HttpContext http,
        IOptions<StripeOptions> options,
        InboxStore inbox,
        ShopClock clock,
        CancellationToken cancel
    )
    {
        if (!options.Value.IsOn)
        {
            return new Refused(Refusal.Missing("payment by card in this shop"));
        }

        if (await Body(http, cancel) is not { } body)
        {
            return new Refused(new Refusal(RefusalKind.TooLarge, "The body is larger than an event."));
        }

        var header = http.Request.Headers[StripeSignature.Header].ToString();
        if (!StripeSignature.IsValid(body, header, options.Value.WebhookSecret!, clock.NowUtc))
        {
            return new Refused(
                new Refusal(RefusalKind.Unreadable, "The signature does not fit.", StripeSignature.Header)
            );
        }

        if (Read(body, clock.NowUtc) is not { } message)
        {
            return new Refused(new Refusal(RefusalKind.Unreadable, "This is no event."));
        }

        await inbox.Take(message, cancel);
        return TypedResults.Ok();
    }

    private static async Task<byte[]?> Body(HttpContext http, CancellationToken cancel)
    {
        using var read = new MemoryStream();
        var buffer = new byte[16 * 1024];
        int count;
        while ((count = await http.Request.Body.ReadAsync(buffer, cancel)) > 0)
        {
            read.Write(buffer, 0, count);
            if (read.Length > MostBytes)
            {
                return null;
            }
        }

        return read.ToArray();
    }

    /// <summary>Only names are kept: who paid with what stays with Stripe.</summary>
    private static InboxMessage? Read(byte[] body, DateTime nowUtc)
    {
        try
        {
            using var json = JsonDocument.Parse(body);
            var (root, about) = (json.RootElement, json.RootElement.GetProperty("data").GetProperty("object"));
            var kind = root.GetProperty("type").GetString()!;
            var id = root.GetProperty("id").GetString()!;
            return Message(new StripeWord(id, kind, StripeEvents.AboutOf(kind, about) ?? ""), nowUtc);
        }
        catch (Exception fault) when (fault is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            return null;
        }
    }
}
