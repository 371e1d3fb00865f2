using System.Security.Cryptography;
using System.Text;
using ReedShop.Platform.Http;

namespace ReedShop.Platform.Idempotency;

/// <summary>
/// Answers a repeated POST with the first answer. Only what was done is remembered: a refusal may turn out otherwise
/// the next time.
/// </summary>
internal sealed class IdempotentPosts(RequestDelegate next, KeyedRequests requests, IServiceScopeFactory scopes)
{
    public const string Header = "Idempotency-Key";
    public const int MostKeyCharacters = 100;
    private const string Guest = "guest";

    /// <summary>A repeat that overtakes the first waits for it. A few turns, chosen by key, are enough for one workshop.</summary>
    private readonly SemaphoreSlim[] turns = [.. Enumerable.Range(0, 16).Select(_ => new SemaphoreSlim(1, 1))];

    public async Task InvokeAsync(HttpContext http)
    {
        if (
            !HttpMethods.IsPost(http.Request.Method)
            || !http.Request.Path.IsForScripts()
            || !http.Request.Headers.TryGetValue(Header, out var keys)
        )
        {
            await next(http);
            return;
        }

        if (keys is not [{ Length: > 0 and <= MostKeyCharacters } key])
        {
            await new Refused(
                Refusal.Invalid(
                    Header,
                    "The key cannot be used.",
                    $"1 to {MostKeyCharacters} characters, best a random UUID"
                )
            ).ExecuteAsync(http);
            return;
        }

        await InTurn(http, await Keyed(http, key));
    }

    private static async Task<KeyedRequest> Keyed(HttpContext http, string key)
    {
        http.Request.EnableBuffering();
        var hash = await SHA256.HashDataAsync(http.Request.Body, http.RequestAborted);
        http.Request.Body.Position = 0;
        return new KeyedRequest(
            http.User.Identity?.Name ?? Guest,
            http.Request.Path + http.Request.QueryString,
            key,
            Convert.ToHexStringLower(hash)
        );
    }

    private async Task InTurn(HttpContext http, KeyedRequest request)
    {
        var turn = turns[(uint)StringComparer.Ordinal.GetHashCode(request.Key) % turns.Length];
        await turn.WaitAsync(http.RequestAborted);
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var answers = scope.ServiceProvider.GetRequiredService<AnswerStore>();
            await (
                await answers.Find(request, http.RequestAborted) is { } answer
                    ? Repeat(http, request, answer)
                    : First(http, request, answers)
            );
        }
        finally
        {
            turn.Release();
        }
    }

    private async Task First(HttpContext http, KeyedRequest request, AnswerStore answers)
    {
        var wire = http.Response.Body;
        using var written = new MemoryStream();
        http.Response.Body = written;
        requests.Current = request;
        try
        {
            await next(http);
        }
        finally
        {
            requests.Current = null;
            http.Response.Body = wire;
        }

        if (http.Response.StatusCode is >= StatusCodes.Status200OK and < StatusCodes.Status300MultipleChoices)
        {
            await Keep(http.Response, request, answers, Encoding.UTF8.GetString(written.ToArray()));
        }

        written.Position = 0;
        await written.CopyToAsync(wire, http.RequestAborted);
    }

    /// <summary>The change stands by now, so this is written even if the sender has gone.</summary>
    private static async Task Keep(HttpResponse response, KeyedRequest request, AnswerStore answers, string body)
    {
        var answer = await answers.Find(request, CancellationToken.None) ?? answers.Add(request, body);
        answer.Status = response.StatusCode;
        answer.Location = response.Headers.Location;
        answer.ETag = response.Headers.ETag;
        answer.Body = body;
        await answers.Save(CancellationToken.None);
    }

    private static Task Repeat(HttpContext http, KeyedRequest request, StoredAnswer answer)
    {
        if (answer.BodyHash != request.BodyHash)
        {
            return new Refused(
                new Refusal(RefusalKind.KeyReused, "This key came with another body before.", Header, "a new key")
            ).ExecuteAsync(http);
        }

        http.Response.StatusCode = answer.Status;
        http.Response.ContentType = "application/json; charset=utf-8";
        http.Response.Headers.Location = answer.Location;
        http.Response.Headers.ETag = answer.ETag;
        return http.Response.WriteAsync(answer.Body);
    }
}
