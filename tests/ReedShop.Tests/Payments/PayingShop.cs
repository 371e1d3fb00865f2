using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Payments;

namespace ReedShop.Tests.Payments;

/// <summary>A shop that takes cards at the stand-in, with a drawer so full that orders are ready when they are paid.</summary>
public sealed class PayingShop : IAsyncDisposable
{
    public const int PriceOfOne = 350;

    private int events;

    private PayingShop(ShopHost shop, StripeStandIn stripe) => (Shop, Stripe) = (shop, stripe);

    public ShopHost Shop { get; }

    public StripeStandIn Stripe { get; }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <param name="drawer">Reeds of 3½ that lie ready.</param>
    /// <param name="payment">The shop's terms; whole price in advance, nothing kept, where none are given.</param>
    public static async Task<PayingShop> Open(
        int drawer = 100,
        object? payment = null,
        Action<IServiceCollection>? configure = null,
        DateTimeOffset? now = null,
        params (string Name, string? Value)[] more
    )
    {
        var stripe = new StripeStandIn();
        var shop = await ShopHost.StartWith(configure, now, [.. stripe.Settings, .. more]);
        stripe.Time = shop.Time;
        await ExampleReeds.Fill(shop);
        if (payment is not null)
        {
            await Terms(shop, payment);
        }

        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                count = drawer,
            }
        );
        return new PayingShop(shop, stripe);
    }

    /// <summary>Takes a quote and orders.</summary>
    public async Task<JsonElement> Order(int quantity = 2, string email = "ana@example.org", string? language = null) =>
        await ShopHost.Read(await Send(quantity, email, language));

    public async Task<HttpResponseMessage> Send(
        int quantity = 2,
        string email = "ana@example.org",
        string? language = null
    )
    {
        var quote = await Shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, quantity)));
        return await ShopHost.Send(Shop.Guest, HttpMethod.Post, "/api/orders", Wish(quote, email, language));
    }

    public static object Wish(JsonElement quote, string email, string? language = null) =>
        new
        {
            quoteId = quote.GetProperty("id").GetString()!,
            buyer = new { name = "Ana Example", email },
            language,
            address = new
            {
                street = "1 Quay",
                locality = "Harbour",
                postalCode = "1000-001",
                country = "PT",
            },
        };

    public static string Id(JsonElement order) => order.GetProperty("id").GetString()!;

    /// <summary>The session whose page the buyer was sent to.</summary>
    public static string SessionOf(JsonElement order) => order.GetProperty("payUrl").GetString()!.Split('/')[^1];

    public async Task<JsonElement> Read(JsonElement order) => await Shop.GetJson($"/api/orders/{Id(order)}");

    public async Task<string> Status(JsonElement order) => (await Read(order)).GetProperty("status").GetString()!;

    public async Task<JsonElement> Money(JsonElement order) => await Shop.GetJson($"/api/orders/{Id(order)}/money");

    public static long Amount(JsonElement money, string name) =>
        money.GetProperty(name).GetProperty("amount").GetInt64();

    /// <summary>A word of Stripe, signed, as it comes to the webhook.</summary>
    public Task<HttpResponseMessage> Tell(string kind, object thing, string? eventId = null) =>
        Post(Event(kind, thing, eventId ?? $"evt_{Interlocked.Increment(ref events)}"));

    public Task<HttpResponseMessage> TellOfSession(string session, string kind = "checkout.session.completed") =>
        Tell(kind, Stripe.Sessions[session].Shape());

    /// <summary>A word of Stripe that is lost on its way: Stripe knows it was told.</summary>
    public void Lose(string kind, object thing) =>
        Stripe.Told.Add(
            new StandInWord(
                $"evt_{Interlocked.Increment(ref events)}",
                kind,
                thing,
                Shop.Time.GetUtcNow().ToUnixTimeSeconds()
            )
        );

    public static string Event(string kind, object thing, string eventId) =>
        JsonSerializer.Serialize(new StandInWord(eventId, kind, thing, 0).Shape());

    public async Task<HttpResponseMessage> Post(string body, string? header = null)
    {
        using var content = new StringContent(body, Encoding.UTF8);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        using var request = new HttpRequestMessage(HttpMethod.Post, "/webhooks/stripe") { Content = content };
        request.Headers.TryAddWithoutValidation(StripeSignature.Header, header ?? Sign(body, Shop.Time.GetUtcNow()));
        return await Shop.Guest.SendAsync(request, Cancel);
    }

    public static string Sign(string body, DateTimeOffset at, string secret = StripeStandIn.WebhookSecret)
    {
        var seconds = at.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture);
        var mac = StripeSignature.Of(Encoding.UTF8.GetBytes(secret), Encoding.UTF8.GetBytes($"{seconds}.{body}"));
        return $"t={seconds},v1={mac}";
    }

    /// <summary>What the program does every minute, some minutes later.</summary>
    public async Task Tick(TimeSpan later = default)
    {
        Shop.Time.Advance(later);
        await Shop.Tick("work-stripe-events");
        await Shop.Tick("reconcile-payments");
    }

    public async Task<string[]> Letters(string to = "ana@example.org")
    {
        var letters = await Shop.GetJson("/api/messages");
        return
        [
            .. letters
                .EnumerateArray()
                .Where(letter => letter.GetProperty("to").GetString() == to)
                .Select(letter => letter.GetProperty("kind").GetString()!),
        ];
    }

    /// <summary>An order that is paid and accepted.</summary>
    public async Task<JsonElement> PaidOrder(
        int quantity = 2,
        string email = "ana@example.org",
        string? language = null
    )
    {
        var order = await Order(quantity, email, language);
        Assert.True(Stripe.Pay(SessionOf(order)));
        await ComeBack(order);
        return order;
    }

    /// <summary>The buyer comes back from Stripe's page.</summary>
    public Task<HttpResponseMessage> ComeBack(JsonElement order) =>
        Shop.Guest.GetAsync($"/orders/{Id(order)}/paid", Cancel);

    public Task<HttpResponseMessage> CancelAsBuyer(JsonElement order) =>
        ShopHost.Send(Shop.Guest, HttpMethod.Post, $"/api/orders/{Id(order)}/cancel", new { });

    public async ValueTask DisposeAsync()
    {
        await Shop.DisposeAsync();
        await Stripe.DisposeAsync();
    }

    private static async Task Terms(ShopHost shop, object payment)
    {
        using var known = await shop.Owner.GetAsync("/api/shop", Cancel);
        var settings = System.Text.Json.Nodes.JsonNode.Parse(await known.Content.ReadAsStringAsync(Cancel))!;
        settings["payment"] = JsonSerializer.SerializeToNode(payment);
        await shop.PutJson("/api/shop", settings, known.Headers.ETag!.Tag);
    }
}
