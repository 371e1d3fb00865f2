using Microsoft.Extensions.Options;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;

namespace ReedShop.Payments;

/// <summary>How far this process has come: a new one asks at once, for all that Stripe keeps.</summary>
public sealed class MissedEventsAsked
{
    public DateTime? LastUtc { get; set; }

    /// <summary>Up to then every word has been taken down.</summary>
    public DateTime? TakenUtc { get; set; }
}

/// <summary>
/// Asks Stripe once an hour which of its words did not reach the shop, and takes them down as if they had just come. So a
/// refund, a dispute or a late payment is known even where no webhook works.
/// </summary>
public sealed partial class MissedEvents(
    StripeDesk desk,
    InboxStore inbox,
    MissedEventsAsked asked,
    IOptions<StripeOptions> options,
    ShopClock clock,
    ILogger<MissedEvents> log
) : ITick
{
    private static readonly TimeSpan Every = TimeSpan.FromHours(1);

    // Stripe's page on events (value from memory).
    private static readonly TimeSpan KeptByStripe = TimeSpan.FromDays(30);

    /// <summary>For words that Stripe lists only some time after they happened.</summary>
    private static readonly TimeSpan Overlap = TimeSpan.FromDays(1);

    public async Task Run(CancellationToken cancel)
    {
        var now = clock.NowUtc;
        if (!options.Value.IsOn || asked.LastUtc > now - Every)
        {
            return;
        }

        asked.LastUtc = now;
        var told = await desk.Events((asked.TakenUtc - Overlap) ?? now - KeptByStripe, cancel);
        if (told.Value is not { } words)
        {
            return;
        }

        var missed = 0;
        foreach (var word in words)
        {
            missed += await inbox.Take(Webhooks.Message(word, now), cancel) ? 1 : 0;
        }

        asked.TakenUtc = now;
        if (missed > 0)
        {
            Missed(missed);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Count} words of Stripe had not come by webhook")]
    private partial void Missed(int count);
}
