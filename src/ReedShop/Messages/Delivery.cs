using MailKit.Net.Smtp;
using Microsoft.Extensions.Options;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;

namespace ReedShop.Messages;

/// <summary>Whether it is the time of night at which the shop writes to nobody who does not wait for it.</summary>
public delegate Task<bool> QuietNow(CancellationToken cancel);

/// <summary>Delivers what lies in the outbox, oldest first.</summary>
internal sealed partial class Delivery(
    OutboxStore outbox,
    ICarrier carrier,
    IOptions<MailOptions> options,
    QuietNow quiet,
    ILogger<Delivery> log
) : ITick
{
    private const int MostPerTick = 50;

    public async Task Run(CancellationToken cancel)
    {
        foreach (var message in await outbox.Due(MostPerTick, await quiet(cancel), cancel))
        {
            if (await outbox.TryLease(message, cancel) && !await Deliver(message, cancel))
            {
                return;
            }
        }
    }

    /// <summary>
    /// False if nothing else can be delivered now either. A process that dies here leaves the lease to run out; the
    /// repeat carries the same Message-ID.
    /// </summary>
    private async Task<bool> Deliver(OutboxMessage message, CancellationToken cancel)
    {
        try
        {
            await carrier.Carry(message.Id, Letter.Of(message, options.Value), cancel);
            await outbox.MarkSent(message, cancel);
            Sent(message.Kind, message.Subject);
            return true;
        }
        catch (Exception fault) when (fault is not OperationCanceledException || !cancel.IsCancellationRequested)
        {
            await outbox.MarkFailed(message, fault.Message, cancel);
            Failed(message.Kind, message.Subject, message.Attempts, fault);
            return fault is SmtpCommandException;
        }
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "Sent {Kind} {Subject}")]
    private partial void Sent(string kind, string subject);

    [LoggerMessage(Level = LogLevel.Warning, Message = "Could not send {Kind} {Subject}, attempt {Attempt}")]
    private partial void Failed(string kind, string subject, int attempt, Exception fault);
}
