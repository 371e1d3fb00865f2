using System.Text.Json;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;

namespace ReedShop.Payments;

/// <summary>
/// Works what Stripe told, in whatever order it came. Many words about one thing are one question: what is told is not
/// believed but asked for, so that the last state of a thing is all that matters.
/// </summary>
public sealed partial class StripeEvents(
    InboxStore inbox,
    Settling settling,
    Refunding refunding,
    Disputing disputing,
    ILogger<StripeEvents> log
) : ITick
{
    /// <summary>What is written beside a thing at which the program failed; the log says more.</summary>
    internal const string ProgramFault = "The program met a fault at it, see its log";

    private const int MostAtOnce = 500;

    /// <summary>The kinds of words that something follows from.</summary>
    public static IReadOnlyList<string> Kinds { get; } =
    [
        "checkout.session.completed",
        "checkout.session.expired",
        "checkout.session.async_payment_succeeded",
        "checkout.session.async_payment_failed",
        "refund.created",
        "refund.updated",
        "refund.failed",
        "charge.refunded",
        "charge.refund.updated",
        "charge.dispute.created",
        "charge.dispute.updated",
        "charge.dispute.closed",
        "charge.dispute.funds_withdrawn",
        "charge.dispute.funds_reinstated",
    ];

    public async Task Run(CancellationToken cancel)
    {
        List<InboxMessage> due;
        do
        {
            due = await inbox.Due(Webhooks.Source, MostAtOnce, cancel);
            foreach (var same in due.GroupBy(message => (TopicOf(message.Kind), message.About)))
            {
                await TryWork(same.Key.Item1, same.Key.About, [.. same], cancel);
            }
        } while (due.Count == MostAtOnce);
    }

    /// <summary>What is to be asked about: of a refund or a charge, its payment.</summary>
    public static string? AboutOf(string kind, JsonElement thing) =>
        Text(thing, TopicOf(kind) == Topic.Refunds ? "payment_intent" : "id");

    private static Topic TopicOf(string kind) =>
        kind switch
        {
            _ when kind.StartsWith("checkout.session.", StringComparison.Ordinal) => Topic.Session,
            _ when kind.StartsWith("charge.dispute.", StringComparison.Ordinal) => Topic.Dispute,
            _ when kind.StartsWith("refund.", StringComparison.Ordinal) => Topic.Refunds,
            "charge.refunded" or "charge.refund.updated" => Topic.Refunds,
            _ => Topic.Other,
        };

    private async Task TryWork(Topic topic, string about, IReadOnlyList<InboxMessage> same, CancellationToken cancel)
    {
        try
        {
            await Work(topic, about, same, cancel);
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            Failed(fault);
            await inbox.MarkFailed(same, ProgramFault, cancel);
        }
    }

    private async Task Work(Topic topic, string about, IReadOnlyList<InboxMessage> same, CancellationToken cancel)
    {
        var refusal = topic switch
        {
            _ when about.Length == 0 => null,
            Topic.Session => (await settling.Settle(about, cancel)).Refusal,
            Topic.Refunds => (await settling.Know(about, cancel)).Refusal
                ?? (await refunding.Reconcile(about, cancel)).Refusal,
            Topic.Dispute => (await disputing.Look(about, cancel)).Refusal,
            _ => null,
        };
        await (
            refusal is null
                ? inbox.MarkWorked([.. same.Select(message => message.Id)], cancel)
                : inbox.MarkFailed(same, refusal.Detail, cancel)
        );
    }

    private static string? Text(JsonElement thing, string name) =>
        thing.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    [LoggerMessage(Level = LogLevel.Error, Message = "A word of Stripe could not be worked")]
    private partial void Failed(Exception fault);

    private enum Topic
    {
        Session,
        Refunds,
        Dispute,
        Other,
    }
}
