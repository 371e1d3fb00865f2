using System.Net;
using Microsoft.Extensions.Options;
using ReedShop.Orders;
using Stripe;
using Stripe.Checkout;

namespace ReedShop.Payments;

/// <summary>What Stripe answered.</summary>
/// <param name="Fault">Null if it was done.</param>
/// <param name="IsFinal">Asking the same again would be answered the same; otherwise nobody knows whether it was done.</param>
public sealed record Asked<T>(T? Value, string? Fault = null, bool IsFinal = false);

public enum StripeSessionState
{
    Open,
    Paid,
    Expired,
}

/// <summary>A session as Stripe tells of it.</summary>
/// <param name="Ours">The id of our own row.</param>
/// <param name="AmountSent">In Stripe's unit.</param>
public sealed record StripeSession(
    string Id,
    string? Ours,
    StripeSessionState State,
    string? Url,
    string? PaymentId,
    long AmountSent,
    string Currency
);

/// <param name="Ours">The id of our own row; null for one made elsewhere.</param>
/// <param name="HasFailed">The bank sent it back, or it was called off.</param>
public sealed record StripeRefund(string Id, string? Ours, long AmountSent, bool HasFailed);

public sealed record StripeDispute(string Id, string? PaymentId, long AmountSent, string Reason, string Status);

/// <summary>
/// The one place that speaks to Stripe. Every request that changes something carries an idempotency key made of our own
/// row, so that it can be repeated after a crash without being done twice.
/// </summary>
public sealed class StripeDesk(IOptions<StripeOptions> options)
{
    private const string OurRefund = "reedshop_refund";
    private const string OurOrder = "order";

    private readonly Lazy<StripeClient> client = new(() => Client(options.Value));

    public Task<Asked<StripeSession>> Open(PaySession session, Order order, string page, CancellationToken cancel) =>
        Ask(async () =>
            Of(
                await new SessionService(client.Value).CreateAsync(
                    Wish(session, order, page),
                    Key($"session-{session.Id}-{session.Attempt}"),
                    cancel
                )
            )
        );

    public Task<Asked<StripeSession>> Read(string id, CancellationToken cancel) =>
        Ask(async () => Of(await new SessionService(client.Value).GetAsync(id, null, null, cancel)));

    /// <summary>Closes a session that nobody is to pay any more.</summary>
    public Task<Asked<StripeSession>> Close(StripeSession session, CancellationToken cancel) =>
        Ask(async () =>
            Of(
                await new SessionService(client.Value).ExpireAsync(
                    session.Id,
                    null,
                    Key($"close-{session.Ours}-{session.Id}"),
                    cancel
                )
            )
        );

    /// <param name="round">Keys are kept by Stripe for a day: later a refund that is not found there needs another.</param>
    public Task<Asked<StripeRefund>> Refund(
        Refund refund,
        string payment,
        long amountSent,
        int round,
        CancellationToken cancel
    ) =>
        Ask(async () =>
            Of(
                await new RefundService(client.Value).CreateAsync(
                    new RefundCreateOptions
                    {
                        PaymentIntent = payment,
                        Amount = amountSent,
                        Metadata = new Dictionary<string, string>(StringComparer.Ordinal) { [OurRefund] = refund.Id },
                    },
                    Key($"refund-{refund.Id}-{round}"),
                    cancel
                )
            )
        );

    /// <summary>All refunds of a payment, wherever they were made.</summary>
    public Task<Asked<IReadOnlyList<StripeRefund>>> Refunds(string payment, CancellationToken cancel) =>
        Ask<IReadOnlyList<StripeRefund>>(async () =>
            [
                .. (
                    await new RefundService(client.Value).ListAsync(
                        new RefundListOptions { PaymentIntent = payment, Limit = 100 },
                        null,
                        cancel
                    )
                ).Select(Of),
            ]
        );

    public Task<Asked<StripeDispute>> Dispute(string id, CancellationToken cancel) =>
        Ask(async () =>
        {
            var dispute = await new DisputeService(client.Value).GetAsync(id, null, null, cancel);
            return new StripeDispute(
                dispute.Id,
                dispute.PaymentIntentId,
                dispute.Amount,
                dispute.Reason,
                dispute.Status
            );
        });

    private static SessionCreateOptions Wish(PaySession session, Order order, string page)
    {
        var about = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            [OurOrder] = order.Number.ToString(System.Globalization.CultureInfo.InvariantCulture),
        };
        return new SessionCreateOptions
        {
            Mode = "payment",
            ClientReferenceId = session.Id,
            CustomerEmail = order.BuyerEmail,
            // Methods that pay later would keep evenings held for days.
            AllowedPaymentMethodTypes = ["card"],
            LineItems = [Item(session, order)],
            SuccessUrl = $"{page}/paid",
            CancelUrl = page,
            ExpiresAt = session.ExpiresUtc,
            Metadata = about,
            PaymentIntentData = new SessionPaymentIntentDataOptions
            {
                Metadata = about,
                Description = $"Order {order.Number}",
            },
        };
    }

    /// <summary>One line with the whole amount: several would have to be rounded each.</summary>
    private static SessionLineItemOptions Item(PaySession session, Order order) =>
        new()
        {
            Quantity = 1,
            PriceData = new SessionLineItemPriceDataOptions
            {
                Currency = session.Currency.ToLowerInvariant(),
                UnitAmount = CardMoney.Of(session.Currency)!.ToStripe(session.AmountMinor),
                ProductData = new SessionLineItemPriceDataProductDataOptions { Name = Name(session, order) },
            },
        };

    private static string Name(PaySession session, Order order)
    {
        var reeds = order.Lines.OrderBy(l => l.Position).Select(l => $"{l.Quantity} of {l.Strength} ({l.Model})");
        var part = session.Part switch
        {
            PayPart.Deposit => ", deposit",
            PayPart.Balance => ", balance",
            _ => "",
        };
        return $"Order {order.Number}{part}: {string.Join(", ", reeds)}";
    }

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

    private static RequestOptions Key(string key) => new() { IdempotencyKey = key };

    private static StripeClient Client(StripeOptions options) =>
        new(
            new StripeClientOptions
            {
                ApiKey = options.SecretKey,
                ApiBase = options.ApiBase.TrimEnd('/'),
                HttpClient = new SystemNetHttpClient(
                    new HttpClient { Timeout = TimeSpan.FromSeconds(options.TimeoutSeconds) },
                    options.Repeats,
                    appInfo: null,
                    enableTelemetry: false
                ),
            }
        );

    private static async Task<Asked<T>> Ask<T>(Func<Task<T>> ask)
        where T : class
    {
        try
        {
            return new Asked<T>(await ask());
        }
        catch (StripeException fault)
        {
            return new Asked<T>(null, Words(fault), IsFinal(fault.HttpStatusCode));
        }
        catch (HttpRequestException)
        {
            return new Asked<T>(null, "Stripe could not be reached");
        }
        catch (OperationCanceledException)
        {
            return new Asked<T>(null, "Stripe did not answer in time");
        }
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
}
