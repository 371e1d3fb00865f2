using Microsoft.Extensions.Options;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;

namespace ReedShop.Payments;

/// <summary>When Stripe was last asked, by this process: a new one asks at once.</summary>
public sealed class MissedEventsAsked
{
    public DateTime? LastUtc { get; set; }
}

/// <summary>
/// Asks Stripe once an hour which of its words did not reach the shop, and takes them down as if they had just come. So a
/// refund, a dispute or a late payment is known even where no webhook works. Stripe keeps its words for thirty days.
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
    private static readonly TimeSpan KeptByStripe = TimeSpan.FromDays(30);

    /// <summary>Words overtake one another: the newest that came says little of those of the day before it.</summary>
    private static readonly TimeSpan Overlap = TimeSpan.FromDays(1);

    public async Task Run(CancellationToken cancel)
    {
        var now = clock.NowUtc;
        if (!options.Value.IsOn || asked.LastUtc > now - Every)
        {
            return;
        }

        asked.LastUtc = now;
        var newest = await inbox.NewestUtc(Webhooks.Source, cancel) ?? DateTime.MinValue;
        var since = newest > now - KeptByStripe + Overlap ? newest - Overlap : now - KeptByStripe;
        var told = await desk.Events(since, cancel);
        var missed = 0;
        foreach (var word in told.Value ?? [])
        {
            missed += await inbox.Take(Webhooks.Message(word, now), cancel) ? 1 : 0;
        }

        if (missed > 0)
        {
            Missed(missed);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Count} words of Stripe had not come by webhook")]
    private partial void Missed(int count);
}
