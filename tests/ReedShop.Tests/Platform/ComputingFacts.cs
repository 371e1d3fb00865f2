using System.Net;
using System.Text;
using System.Text.Json;
using ReedShop.Platform.Http;

namespace ReedShop.Tests.Platform;

/// <summary>The gate before requests that compute promises and sizes.</summary>
public sealed class ComputingFacts
{
    private const string Sizing = "/api/sizing?model=clarinet&strength=3.5&quantity=4";
    private const string Joint = "/api/sizing/joint?model=clarinet&need=3.5:4&need=4:2";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Two_compute_sixteen_wait_and_the_next_is_sent_away_until_they_are_through()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await using var gate = await FullGate.Of(shop);

        var next = await Quote(shop);

        await AssertBusy(next);
        Assert.All(gate.Orders, order => Assert.False(order.IsCompleted));
        await gate.Open();
        Assert.All(await Task.WhenAll(gate.Orders), order => Assert.Equal(HttpStatusCode.Created, order.StatusCode));
        Assert.Equal((2, 16), (gate.MostComputing, gate.MostWaiting));
        Assert.Equal(HttpStatusCode.OK, (await Quote(shop)).StatusCode);
    }

    [Fact]
    public async Task All_that_compute_share_the_gate_and_nothing_else_waits_at_it()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await using var gate = await FullGate.Of(shop);

        await AssertBusy(await Quote(shop));
        await AssertBusy(await ShopHost.Send(shop.Guest, HttpMethod.Post, "/api/orders", ExampleReeds.Order("any")));
        await AssertBusy(await shop.Owner.GetAsync(Sizing, Cancel));
        await AssertBusy(await shop.Owner.GetAsync(Joint, Cancel));

        await shop.GetJson("/api/models");
        await shop.GetJson("/api/week");
        await ShopHost.ReadProblem(
            await shop.Guest.GetAsync(Sizing, Cancel),
            HttpStatusCode.Unauthorized,
            "not-signed-in"
        );
    }

    [Fact]
    public async Task A_buyer_sent_away_sends_the_same_again_with_one_button()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var buyer = await Visitor.Owner(shop);
        var token = await buyer.FormToken("/");
        await using var gate = await FullGate.Of(shop);

        var answer = await buyer.PostWith(
            token,
            "/",
            ("model", "clarinet"),
            ("strength", "3.5"),
            ("quantity", "4"),
            ("model", "clarinet"),
            ("strength", "4"),
            ("quantity", "2"),
            ("name", "Ana <Example>"),
            ("do", "see")
        );

        var page = await ReadBusyPage(answer);
        Assert.Contains("<form method=\"POST\" action=\"/\">", page, StringComparison.Ordinal);
        Assert.Contains("name=\"quantity\" value=\"4\"", page, StringComparison.Ordinal);
        Assert.Contains("name=\"quantity\" value=\"2\"", page, StringComparison.Ordinal);
        Assert.Contains("name=\"name\" value=\"Ana &lt;Example", page, StringComparison.Ordinal);
        Assert.Contains("name=\"do\" value=\"see\"", page, StringComparison.Ordinal);
        Assert.Contains($"name=\"__RequestVerificationToken\" value=\"{token}\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_maker_sent_away_asks_the_same_again_with_one_button()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);
        await using var gate = await FullGate.Of(shop);

        var page = await ReadBusyPage(
            await owner.Get("/bench/yields?model=clarinet&strength=3.5&quantity=4&confidence=90")
        );

        Assert.Contains("<form method=\"GET\" action=\"/bench/yields\">", page, StringComparison.Ordinal);
        Assert.Contains("name=\"quantity\" value=\"4\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whoever_sends_slowly_holds_no_place()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var body = JsonSerializer.Serialize(ExampleReeds.Lines((3.5, 4)));
        var slow = Enumerable
            .Range(0, Computing.MostAtOnce + Computing.MostWaiting)
            .Select(_ => new SlowBody(body))
            .ToArray();
        var sent = slow.Select(content => shop.Guest.PostAsync("/api/quotes", content, Cancel)).ToArray();
        await Task.WhenAll(slow.Select(content => content.Begun)).WaitAsync(TimeSpan.FromSeconds(10), Cancel);
        await Task.Delay(200, Cancel);

        Assert.Equal(HttpStatusCode.OK, (await Quote(shop)).StatusCode);

        Assert.All(sent, answer => Assert.False(answer.IsCompleted));
        Array.ForEach(slow, content => content.Finish());
        Assert.All(await Task.WhenAll(sent), answer => Assert.Equal(HttpStatusCode.OK, answer.StatusCode));
    }

    private static Task<HttpResponseMessage> Quote(ShopHost shop) =>
        ShopHost.Send(shop.Guest, HttpMethod.Post, "/api/quotes", ExampleReeds.Lines((3.5, 4)));

    private static async Task AssertBusy(HttpResponseMessage answer)
    {
        await ShopHost.ReadProblem(answer, HttpStatusCode.ServiceUnavailable, "busy");
        Assert.Equal(TimeSpan.FromSeconds(1), answer.Headers.RetryAfter?.Delta);
    }

    private static async Task<string> ReadBusyPage(HttpResponseMessage answer)
    {
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal(TimeSpan.FromSeconds(1), answer.Headers.RetryAfter?.Delta);
        var page = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.Contains("Try again in a moment", page, StringComparison.Ordinal);
        return page;
    }

    /// <summary>Sends its first half at once and the rest when told.</summary>
    private sealed class SlowBody : HttpContent
    {
        private readonly byte[] bytes;
        private readonly TaskCompletionSource begun = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private readonly TaskCompletionSource rest = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public SlowBody(string json)
        {
            bytes = Encoding.UTF8.GetBytes(json);
            Headers.ContentType = new("application/json");
        }

        public Task Begun => begun.Task;

        public void Finish() => rest.TrySetResult();

        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            await stream.WriteAsync(bytes.AsMemory(0, bytes.Length / 2), Cancel);
            await stream.FlushAsync(Cancel);
            begun.TrySetResult();
            await rest.Task;
            await stream.WriteAsync(bytes.AsMemory(bytes.Length / 2), Cancel);
        }

        protected override bool TryComputeLength(out long length)
        {
            length = bytes.Length;
            return true;
        }
    }
}
