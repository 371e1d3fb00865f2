using System.Globalization;
using System.Text.Json;
using Microsoft.AspNetCore.WebUtilities;
using WireMock;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;
using WireMock.Server;
using WireMock.Settings;

namespace ReedShop.Tests.Payments;

/// <summary>How a request to the stand-in goes wrong, once.</summary>
public enum StripeFault
{
    None,

    /// <summary>402: the request was fine and failed all the same.</summary>
    Declined,

    /// <summary>429, before anything was done.</summary>
    TooMany,

    /// <summary>500, before anything was done.</summary>
    Broken,

    /// <summary>It is done, and the answer is a 500.</summary>
    BrokenAfter,

    /// <summary>It is done, and the answer comes too late.</summary>
    SilentAfter,
}

/// <summary>
/// Stands in for Stripe's API: sessions, refunds and disputes in their real shapes, idempotency keys that answer a repeat
/// with the first answer, and faults on demand. Its clock is that of the test.
/// </summary>
public sealed class StripeStandIn : IAsyncDisposable
{
    public const string SecretKey = "sk_test_for_tests_only";
    public const string WebhookSecret = "whsec_test_secret";

    /// <summary>The system chooses the port as it binds: one looked for before may be taken by then.</summary>
    private readonly WireMockServer server = WireMockServer.Start(
        new WireMockServerSettings { Urls = ["http://127.0.0.1:0"] }
    );
    private readonly Lock turn = new();
    private readonly Dictionary<string, (string Request, int Status, string Body)> answered = [];
    private readonly Queue<(string Path, StripeFault Fault)> faults = [];
    private int names;

    public StripeStandIn() =>
        server.Given(Request.Create().UsingAnyMethod()).RespondWith(Response.Create().WithCallback(Answer));

    /// <summary>The clock of the test.</summary>
    public TimeProvider Time { get; set; } = TimeProvider.System;

    public Dictionary<string, StandInSession> Sessions { get; } = [];

    public List<StandInRefund> Refunds { get; } = [];

    public Dictionary<string, StandInDispute> Disputes { get; } = [];

    /// <summary>What it told by webhook, or tried to; it keeps that for a while.</summary>
    public List<StandInWord> Told { get; } = [];

    /// <summary>Changes asked for without an idempotency key of the shop's: there must be none, which is looked at in the end.</summary>
    public List<string> Unkeyed { get; } = [];

    /// <summary>The key of the shop is not taken any more.</summary>
    public bool IsShut { get; set; }

    public int Requests { get; private set; }

    /// <summary>Called when a request has been done and before it is answered: a place to die at.</summary>
    public Action<string>? Done { get; set; }

    public long Charged =>
        Sessions.Values.Where(session => session.PaymentId is not null).Sum(session => session.Amount);

    public long GivenBack => Refunds.Where(refund => refund.Status == "succeeded").Sum(refund => refund.Amount);

    /// <summary>The settings of a shop that pays here.</summary>
    public (string Name, string? Value)[] Settings =>
        [
            ("ReedShop:Stripe:SecretKey", SecretKey),
            ("ReedShop:Stripe:WebhookSecret", WebhookSecret),
            ("ReedShop:Stripe:ApiBase", server.Url),
            ("ReedShop:Stripe:TimeoutSeconds", "5"),
            ("ReedShop:Stripe:Repeats", "0"),
            ("ReedShop:PublicAddress", "http://reeds.example"),
        ];

    /// <summary>The next request whose path begins so goes wrong.</summary>
    public void Fail(string path, StripeFault fault)
    {
        lock (turn)
        {
            faults.Enqueue((path, fault));
        }
    }

    /// <summary>The buyer pays, unless the session is over.</summary>
    public bool Pay(string session)
    {
        lock (turn)
        {
            var row = Look(session);
            if (row.Status != "open")
            {
                return false;
            }

            (row.Status, row.PaymentId) = ("complete", $"pi_{++names}");
            return true;
        }
    }

    /// <summary>Paid though the shop has given the session up: what must not happen, and does one day.</summary>
    public void PayAfterAll(string session)
    {
        lock (turn)
        {
            (Sessions[session].Status, Sessions[session].PaymentId) = ("complete", $"pi_{++names}");
        }
    }

    /// <summary>Somebody refunds at Stripe itself.</summary>
    public StandInRefund RefundByHand(string payment, long amount)
    {
        lock (turn)
        {
            return Kept(new StandInRefund($"re_{++names}", payment, amount, null));
        }
    }

    public StandInDispute OpenDispute(string payment, long amount)
    {
        lock (turn)
        {
            var dispute = new StandInDispute($"dp_{++names}", payment, amount);
            return Disputes[dispute.Id] = dispute;
        }
    }

    /// <summary>Whatever a test was about, no change was asked for that a repeat could do twice.</summary>
    public ValueTask DisposeAsync()
    {
        server.Stop();
        server.Dispose();
        Assert.Empty(Unkeyed);
        return ValueTask.CompletedTask;
    }

    private async Task<IResponseMessage> Answer(IRequestMessage request)
    {
        var (status, body, fault) = Work(request);
        if (fault == StripeFault.SilentAfter)
        {
            await Task.Delay(TimeSpan.FromSeconds(6));
        }

        return new ResponseMessage
        {
            StatusCode = status,
            Headers = new Dictionary<string, WireMock.Types.WireMockList<string>>(StringComparer.Ordinal)
            {
                ["Content-Type"] = ["application/json"],
                ["Request-Id"] = ["req_1"],
            },
            BodyData = new WireMock.Util.BodyData
            {
                BodyAsString = body,
                DetectedBodyType = WireMock.Types.BodyType.String,
            },
        };
    }

    private (int Status, string Body, StripeFault Fault) Work(IRequestMessage request)
    {
        lock (turn)
        {
            Requests++;
            var fault = NextFault(request.Path);
            if (fault == StripeFault.TooMany)
            {
                return (429, Error("rate_limit_error", "refused on demand"), fault);
            }

            var (status, body) = Keyed(request, fault);
            Done?.Invoke($"{request.Method} {request.Path}");
            return (status, body, fault);
        }
    }

    private StripeFault NextFault(string path)
    {
        if (faults.TryPeek(out var next) && path.StartsWith(next.Path, StringComparison.Ordinal))
        {
            faults.Dequeue();
            return next.Fault;
        }

        return StripeFault.None;
    }

    /// <summary>
    /// A repeat under the same key gets the first answer, a refusal and a 500 too; the same key for something else is
    /// refused. What was turned away before it was begun (429, or a fault in what was asked) is not kept.
    /// </summary>
    private (int Status, string Body) Keyed(IRequestMessage request, StripeFault fault)
    {
        var headers = request.Headers!;
        if (IsShut || !headers.TryGetValue("Authorization", out var bearer) || bearer.First() != $"Bearer {SecretKey}")
        {
            return (401, Error("invalid_request_error", "no such key"));
        }

        if (request.Method != "POST")
        {
            return Begin(request, fault);
        }

        if (!headers.TryGetValue("Idempotency-Key", out var keys) || IsMadeUp(keys.First()))
        {
            Unkeyed.Add(request.Path);
            return Begin(request, fault);
        }

        var said = $"{request.Path}?{request.Body}";
        if (answered.TryGetValue(keys.First(), out var first))
        {
            return first.Request == said
                ? (first.Status, first.Body)
                : (400, Error("idempotency_error", "this key came with another request"));
        }

        var (status, body) = Begin(request, fault);
        if (status != 400)
        {
            answered[keys.First()] = (said, status, body);
        }

        return (status, body);
    }

    /// <summary>The library's own, for a request that was given none: after a crash nobody knows it.</summary>
    private static bool IsMadeUp(string key) => Guid.TryParse(key, out _);

    private (int Status, string Body) Begin(IRequestMessage request, StripeFault fault)
    {
        switch (fault)
        {
            case StripeFault.Declined:
                return (402, Error("card_error", "refused on demand"));
            case StripeFault.Broken:
                return (500, Error("api_error", "refused on demand"));
            case StripeFault.BrokenAfter:
                Do(request);
                return (500, Error("api_error", "broke after"));
            default:
                return Do(request);
        }
    }

    private (int Status, string Body) Do(IRequestMessage request)
    {
        var form = QueryHelpers.ParseQuery(request.Body ?? "");
        string Field(string name) => form.TryGetValue(name, out var value) ? value.ToString() : "";
        return (request.Method, request.Path.Split('/', StringSplitOptions.RemoveEmptyEntries)) switch
        {
            ("POST", ["v1", "checkout", "sessions"]) => OpenSession(Field),
            ("GET", ["v1", "checkout", "sessions"]) => (
                200,
                List(
                    "/v1/checkout/sessions",
                    Sessions
                        .Values.Where(s => s.PaymentId == request.Query!["payment_intent"].First())
                        .Select(s => s.Shape())
                )
            ),
            ("GET", ["v1", "checkout", "sessions", var id]) => Sessions.ContainsKey(id)
                ? (200, Say(Look(id)))
                : Missing("checkout.session"),
            ("POST", ["v1", "checkout", "sessions", var id, "expire"]) => Expire(id),
            ("POST", ["v1", "refunds"]) => Refund(Field),
            ("GET", ["v1", "refunds"]) => (
                200,
                List(
                    "/v1/refunds",
                    Refunds.Where(r => r.PaymentId == request.Query!["payment_intent"].First()).Select(r => r.Shape())
                )
            ),
            ("GET", ["v1", "events"]) => (200, List("/v1/events", Events(request.Query!))),
            ("GET", ["v1", "disputes", var id]) => Disputes.TryGetValue(id, out var dispute)
                ? (200, Say(dispute))
                : Missing("dispute"),
            _ => Missing("resource"),
        };
    }

    /// <summary>The newest first, as Stripe lists them.</summary>
    private IEnumerable<object> Events(IDictionary<string, WireMock.Types.WireMockList<string>> query)
    {
        var since = long.Parse(query["created[gte]"].First(), CultureInfo.InvariantCulture);
        var kinds = query
            .Where(row => row.Key.StartsWith("types[", StringComparison.Ordinal))
            .Select(row => row.Value.First());
        return Told.Where(word => word.Created >= since && kinds.Contains(word.Kind, StringComparer.Ordinal))
            .OrderByDescending(word => word.Created)
            .Select(word => word.Shape());
    }

    private (int Status, string Body) OpenSession(Func<string, string> field)
    {
        var expires = long.Parse(field("expires_at"), CultureInfo.InvariantCulture);
        if (expires < Time.GetUtcNow().AddMinutes(30).ToUnixTimeSeconds())
        {
            return (400, Error("invalid_request_error", "expires_at must be at least 30 minutes from now"));
        }

        if (field("allowed_payment_method_types[0]") != "card" || field("mode") != "payment")
        {
            return (400, Error("invalid_request_error", "this shop takes cards only, at once"));
        }

        var id = $"cs_test_{++names}";
        var session = new StandInSession(
            id,
            field("client_reference_id"),
            long.Parse(field("line_items[0][price_data][unit_amount]"), CultureInfo.InvariantCulture)
                * long.Parse(field("line_items[0][quantity]"), CultureInfo.InvariantCulture),
            field("line_items[0][price_data][currency]"),
            expires,
            $"{server.Url}/c/pay/{id}"
        );
        Sessions[id] = session;
        return (200, Say(session));
    }

    private (int Status, string Body) Expire(string id)
    {
        var session = Look(id);
        if (session.Status != "open")
        {
            return (400, Error("invalid_request_error", "only open sessions can be expired"));
        }

        session.Status = "expired";
        return (200, Say(session));
    }

    private (int Status, string Body) Refund(Func<string, string> field)
    {
        var (payment, amount) = (field("payment_intent"), long.Parse(field("amount"), CultureInfo.InvariantCulture));
        var paid = Sessions.Values.Single(session => session.PaymentId == payment).Amount;
        var back = Refunds.Where(r => r.PaymentId == payment && r.Status == "succeeded").Sum(r => r.Amount);
        return back + amount > paid
            ? (400, Error("invalid_request_error", "more than was paid", "charge_already_refunded"))
            : (200, Say(Kept(new StandInRefund($"re_{++names}", payment, amount, field("metadata[reedshop_refund]")))));
    }

    private StandInRefund Kept(StandInRefund refund)
    {
        Refunds.Add(refund);
        return refund;
    }

    /// <summary>A session as it stands by now.</summary>
    private StandInSession Look(string id)
    {
        var session = Sessions[id];
        if (session.Status == "open" && session.ExpiresAt <= Time.GetUtcNow().ToUnixTimeSeconds())
        {
            session.Status = "expired";
        }

        return session;
    }

    private static string Say(StandInSession session) => JsonSerializer.Serialize(session.Shape());

    private static string Say(StandInRefund refund) => JsonSerializer.Serialize(refund.Shape());

    private static string Say(StandInDispute dispute) => JsonSerializer.Serialize(dispute.Shape());

    private static string List(string url, IEnumerable<object> data) =>
        JsonSerializer.Serialize(
            new
            {
                @object = "list",
                url,
                has_more = false,
                data,
            }
        );

    private static (int Status, string Body) Missing(string what) =>
        (404, Error("invalid_request_error", $"no such {what}", "resource_missing"));

    private static string Error(string type, string message, string? code = null) =>
        JsonSerializer.Serialize(
            new
            {
                error = new
                {
                    type,
                    message,
                    code,
                },
            }
        );
}
