using System.Net;
using Microsoft.Extensions.Options;
using ReedShop.Orders;
using Stripe;
using Stripe.Checkout;

namespace ReedShop.Payments;

/// <summary>
/// The one place that speaks to Stripe. Every request that changes something carries an idempotency key made of our own
/// row, so that it can be repeated after a crash without being done twice.
/// </summary>
public sealed partial class StripeDesk(
    IOptions<StripeOptions> options,
    IHttpClientFactory wires,
    ILogger<StripeDesk> log
)
{
    /// <summary>Under this name the program knows the way to Stripe.</summary>
    public const string Wire = "stripe";

    private const string OurRefund = "reedshop_refund";

    private readonly Lazy<StripeClient> client = new(() => Client(options.Value, wires.CreateClient(Wire)));

    public Task<Asked<StripeSession>> Open(PaySession session, Order order, string page, CancellationToken cancel) =>
        Ask(
            async () =>
                Of(
                    await new SessionService(client.Value).CreateAsync(
                        SessionWish.Of(session, order, page),
                        Key($"session-{session.Id}-{session.Attempt}"),
                        cancel
                    )
                ),
            cancel
        );

    public Task<Asked<StripeSession>> Read(string id, CancellationToken cancel) =>
        Ask(async () => Of(await new SessionService(client.Value).GetAsync(id, null, null, cancel)), cancel);

    /// <summary>The session a payment was made in: one, or none where it came about otherwise.</summary>
    public Task<Asked<IReadOnlyList<StripeSession>>> SessionsOf(string payment, CancellationToken cancel) =>
        Ask<IReadOnlyList<StripeSession>>(
            async () =>
                [
                    .. (
                        await new SessionService(client.Value).ListAsync(
                            new SessionListOptions { PaymentIntent = payment, Limit = 1 },
                            null,
                            cancel
                        )
                    ).Select(Of),
                ],
            cancel
        );

    /// <summary>
    /// Closes a session that nobody is to pay any more. A fault is kept under its key for a day, and closing twice does no
    /// harm: every minute has a key of its own.
    /// </summary>
    public Task<Asked<StripeSession>> Close(StripeSession session, DateTime nowUtc, CancellationToken cancel) =>
        Ask(
            async () =>
                Of(
                    await new SessionService(client.Value).ExpireAsync(
                        session.Id,
                        null,
                        Key($"close-{session.Ours}-{session.Id}-{nowUtc:yyyyMMddHHmm}"),
                        cancel
                    )
                ),
            cancel
        );

    public Task<Asked<StripeRefund>> Refund(Refund refund, string payment, long amountSent, CancellationToken cancel) =>
        Ask(
            async () =>
                Of(
                    await new RefundService(client.Value).CreateAsync(
                        new RefundCreateOptions
                        {
                            PaymentIntent = payment,
                            Amount = amountSent,
                            Metadata = new Dictionary<string, string>(StringComparer.Ordinal)
                            {
                                [OurRefund] = refund.Id,
                            },
                        },
                        Key($"refund-{refund.Id}-{refund.Attempts}"),
                        cancel
                    )
                ),
            cancel
        );

    /// <summary>All refunds of a payment, wherever they were made.</summary>
    public Task<Asked<IReadOnlyList<StripeRefund>>> Refunds(string payment, CancellationToken cancel) =>
        Ask<IReadOnlyList<StripeRefund>>(
            async () =>
                [
                    .. (
                        await new RefundService(client.Value).ListAsync(
                            new RefundListOptions { PaymentIntent = payment, Limit = 100 },
                            null,
                            cancel
                        )
                    ).Select(Of),
                ],
            cancel
        );

    /// <summary>What Stripe told since then by webhook, or tried to.</summary>
    public Task<Asked<IReadOnlyList<StripeWord>>> Events(DateTime sinceUtc, CancellationToken cancel) =>
        Ask<IReadOnlyList<StripeWord>>(
            async () =>
            {
                var words = new List<StripeWord>();
                var wish = new EventListOptions
                {
                    Created = new DateRangeOptions { GreaterThanOrEqual = sinceUtc },
                    Types = [.. StripeEvents.Kinds],
                    Limit = 100,
                };
                await foreach (var word in new EventService(client.Value).ListAutoPagingAsync(wish, null, cancel))
                {
                    words.Add(new StripeWord(word.Id, word.Type, AboutOf(word.Data.Object) ?? ""));
                }

                return words;
            },
            cancel
        );

    public Task<Asked<StripeDispute>> Dispute(string id, CancellationToken cancel) =>
        Ask(
            async () =>
            {
                var dispute = await new DisputeService(client.Value).GetAsync(id, null, null, cancel);
                return new StripeDispute(
                    dispute.Id,
                    dispute.PaymentIntentId,
                    dispute.Amount,
                    dispute.Reason,
                    dispute.Status
                );
            },
            cancel
        );

    private static StripeSession Of(Session session) =>
        new(
            session.Id,
            session.ClientReferenceId,
            session.Status switch
            {
                "expired" => StripeSessionState.Expired,
                "complete" when session.PaymentStatus == "paid" => StripeSessionState.Paid,
                _ => StripeSessionState.Open,
            },
            session.Url,
            session.PaymentIntentId,
            session.AmountTotal ?? 0,
            session.Currency?.ToUpperInvariant() ?? ""
        );

    private static StripeRefund Of(Stripe.Refund refund) =>
        new(
            refund.Id,
            refund.Metadata?.GetValueOrDefault(OurRefund),
            refund.Amount,
            refund.Status is "failed" or "canceled"
        );

    /// <summary>As <see cref="StripeEvents.AboutOf"/> reads it from a webhook.</summary>
    private static string? AboutOf(IHasObject thing) =>
        thing switch
        {
            Session session => session.Id,
            Stripe.Refund refund => refund.PaymentIntentId,
            Charge charge => charge.PaymentIntentId,
            Stripe.Dispute dispute => dispute.Id,
            _ => null,
        };

    private static RequestOptions Key(string key) => new() { IdempotencyKey = key };

    private static StripeClient Client(StripeOptions options, HttpClient wire) =>
        new(
            new StripeClientOptions
            {
                ApiKey = options.SecretKey,
                ApiBase = options.ApiBase.TrimEnd('/'),
                HttpClient = new SystemNetHttpClient(wire, options.Repeats, appInfo: null, enableTelemetry: false),
            }
        );

    /// <param name="cancel">Of whoever asks; that Stripe did not answer in time is an answer, that nobody waits is none.</param>
    private async Task<Asked<T>> Ask<T>(Func<Task<T>> ask, CancellationToken cancel)
        where T : class
    {
        try
        {
            return new Asked<T>(await ask());
        }
        catch (StripeException fault)
        {
            var isFinal = IsFinal(fault.HttpStatusCode);
            Failed(Words(fault));
            return new Asked<T>(null, Words(fault), isFinal, isFinal || (int)fault.HttpStatusCode >= 500);
        }
        catch (HttpRequestException)
        {
            return Unheard<T>("Stripe could not be reached");
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return Unheard<T>("Stripe did not answer in time");
        }
    }

    private Asked<T> Unheard<T>(string why)
        where T : class
    {
        Failed(why);
        return new Asked<T>(null, why);
    }

    /// <summary>
    /// Whether the same request would be refused again. A wrong key, a conflict or too many requests pass; after a fault of
    /// Stripe's own (5xx) nobody knows.
    /// </summary>
    private static bool IsFinal(HttpStatusCode status) =>
        status
            is HttpStatusCode.BadRequest
                or HttpStatusCode.PaymentRequired
                or HttpStatusCode.Forbidden
                or HttpStatusCode.NotFound;

    /// <summary>Status and code only: the sentence may repeat what was sent.</summary>
    private static string Words(StripeException fault) =>
        $"Stripe answered {(int)fault.HttpStatusCode}{(fault.StripeError?.Code is { } code ? $", {code}" : "")}";

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Fault}")]
    private partial void Failed(string fault);
}
