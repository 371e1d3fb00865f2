using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform.Http;

namespace ReedShop.Quotes;

public static class QuoteApi
{
    public static void MapQuotes(this IEndpointRouteBuilder routes) =>
        routes
            .MapPost("/api/quotes", Make)
            .RequireRateLimiting(Computing.Policy)
            .WithTags("Quotes")
            .WithSummary("Price and ship date for some reeds, with the chance of keeping it. A draft stores nothing.");

    private static async Task<Results<Ok<QuoteView>, Refused>> Make(
        QuoteRequest wish,
        QuoteMaker quotes,
        CancellationToken cancel
    ) => (await quotes.Make(wish, cancel)).OkOrRefused();
}
