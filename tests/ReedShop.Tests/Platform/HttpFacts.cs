using System.Net;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Platform;

public sealed class HttpFacts(SharedHost shared) : IClassFixture<SharedHost>
{
    private readonly ShopHost shop = shared.Shop;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("""{"lot":"a","colour":1}""", "colour", "There is no member colour.", "an object with lot, model")]
    [InlineData("""{"lot":"a"}""", "the body", "Missing in the body: model, supplier", "an object with lot, model")]
    [InlineData("""{"lot":7}""", "lot", "lot cannot be read.", "text")]
    [InlineData("""{"lot":"a","harvest":"last"}""", "harvest", "harvest cannot be read.", "a whole number")]
    [InlineData("""{"seasonedFrom":"soon"}""", "seasonedFrom", "seasonedFrom cannot be read.", "a date such as")]
    [InlineData("""{"lot":"a""", "lot", "lot cannot be read.", "text")]
    [InlineData("", null, "The request has no body", "JSON")]
    public async Task A_body_that_cannot_be_read_says_where_and_what_is_taken(
        string body,
        string? field,
        string detail,
        string allowed
    )
    {
        var problem = await Refused(HttpMethod.Post, "/api/cane", body);

        Assert.StartsWith(detail, problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.StartsWith(allowed, problem.GetProperty("allowed").GetString(), StringComparison.Ordinal);
        Assert.Equal(field, problem.TryGetProperty("field", out var named) ? named.GetString() : null);
    }

    [Fact]
    public async Task An_empty_member_of_a_list_is_refused_and_breaks_nothing()
    {
        var answer = await shop.Send(HttpMethod.Post, "/api/quotes", new { lines = new object?[] { null } });
        await ShopHost.ReadProblem(answer, HttpStatusCode.BadRequest, "unreadable");
    }

    [Fact]
    public async Task A_member_deep_in_a_list_is_found()
    {
        var body =
            """{"name":"B","instrument":"i","cut":"c","strengths":[3,3.1],"price":{"amount":1,"currency":"EUR"},"route":[]}""";

        var problem = await Refused(HttpMethod.Put, "/api/models/b", body);

        Assert.Equal("strengths[1]", problem.GetProperty("field").GetString());
        Assert.Equal(
            "a strength from 1 to 6 in quarter steps, such as 3, 3.25 or 3.5",
            problem.GetProperty("allowed").GetString()
        );
    }

    [Fact]
    public async Task A_value_in_the_address_that_cannot_be_read_is_named()
    {
        var answer = await shop.Owner.GetAsync("/api/batches?limit=few", Cancel);

        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.BadRequest, "unreadable");
        Assert.Equal("limit", problem.GetProperty("field").GetString());
    }

    [Fact]
    public async Task Unknown_addresses_wrong_methods_and_strangers_get_problem_documents()
    {
        await ShopHost.ReadProblem(
            await shop.Owner.GetAsync("/api/nothing", Cancel),
            HttpStatusCode.NotFound,
            "not-found"
        );
        await ShopHost.ReadProblem(
            await shop.Owner.DeleteAsync("/api/models", Cancel),
            HttpStatusCode.MethodNotAllowed,
            "wrong-method"
        );
        await ShopHost.ReadProblem(
            await shop.Guest.GetAsync("/api/shop", Cancel),
            HttpStatusCode.Unauthorized,
            "not-signed-in"
        );
    }

    [Fact]
    public async Task A_body_of_more_than_20_MB_is_refused()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/cane")
        {
            Content = new ByteArrayContent(new byte[(20 * 1024 * 1024) + 1]),
        };
        request.Content.Headers.ContentType = new("application/json");
        request.Headers.ExpectContinue = true;

        var answer = await shop.Owner.SendAsync(request, Cancel);

        await ShopHost.ReadProblem(answer, HttpStatusCode.RequestEntityTooLarge, "too-large");
    }

    [Fact]
    public async Task A_fault_of_ours_shows_nothing_of_the_inside()
    {
        await using var broken = await ShopHost.Start(null, ("Serilog:MinimumLevel:Default", "Fatal"));
        await broken.Within(services =>
            services.GetRequiredService<ShopDb>().Database.ExecuteSqlRawAsync("DROP TABLE models", Cancel)
        );

        var answer = await broken.Guest.GetAsync("/api/models", Cancel);

        await ShopHost.ReadProblem(answer, HttpStatusCode.InternalServerError, "broken");
        Assert.DoesNotContain("SQLite", await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_kind_of_refusal_is_published_at_its_address()
    {
        foreach (var kind in (await shop.GetJson("/problems")).EnumerateArray())
        {
            var one = await shop.GetJson(kind.GetProperty("type").GetString()!);
            Assert.Equal(kind.GetProperty("meaning").GetString(), one.GetProperty("meaning").GetString());
        }
    }

    [Fact]
    public async Task Answers_forbid_everything_from_elsewhere()
    {
        var answer = await shop.Guest.GetAsync("/api/models", Cancel);

        Assert.StartsWith(
            "default-src 'self'; base-uri 'none'",
            answer.Headers.GetValues("Content-Security-Policy").Single(),
            StringComparison.Ordinal
        );
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Fact]
    public async Task The_document_is_OpenAPI_3_1_and_knows_our_types()
    {
        var document = await shop.GetJson("/openapi/v1.json");

        Assert.StartsWith("3.1", document.GetProperty("openapi").GetString(), StringComparison.Ordinal);
        Assert.Equal(
            "number",
            document
                .GetProperty("components")
                .GetProperty("schemas")
                .GetProperty("Strength")
                .GetProperty("type")
                .GetString()
        );
        Assert.True(document.GetProperty("paths").TryGetProperty("/api/batches/{id}/steps/{n}/record", out _));
        Assert.False(document.GetProperty("paths").TryGetProperty("/sign-in", out _));
        Assert.Equal(
            "Idempotency-Key",
            document
                .GetProperty("paths")
                .GetProperty("/api/cane")
                .GetProperty("post")
                .GetProperty("parameters")[0]
                .GetProperty("name")
                .GetString()
        );
    }

    [Fact]
    public async Task The_reference_page_loads_nothing_from_elsewhere()
    {
        var answer = await shop.Guest.GetAsync("/docs/api/", Cancel);
        var page = await answer.Content.ReadAsStringAsync(Cancel);
        var policy = answer.Headers.GetValues("Content-Security-Policy").Single();

        Assert.DoesNotContain("https://", page, StringComparison.Ordinal);
        var nonce = policy.Split("'nonce-")[1].Split('\'')[0];
        Assert.Contains($"nonce=\"{nonce}\"", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
    }

    private async Task<JsonElement> Refused(HttpMethod method, string path, string body)
    {
        using var request = new HttpRequestMessage(method, path)
        {
            Content = new StringContent(body, Encoding.UTF8, "application/json"),
        };
        return await ShopHost.ReadProblem(
            await shop.Owner.SendAsync(request, Cancel),
            HttpStatusCode.BadRequest,
            "unreadable"
        );
    }
}
