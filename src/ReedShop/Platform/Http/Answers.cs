using Microsoft.AspNetCore.Http.HttpResults;

namespace ReedShop.Platform.Http;

/// <summary>Turns a result into an answer: the value, or the problem document of its refusal.</summary>
public static class Answers
{
    public static Results<Ok<T>, Refused> OkOrRefused<T>(this Result<T> result) =>
        result.Refusal is { } refusal ? (Refused)refusal : TypedResults.Ok(result.Value);

    public static Results<Created<T>, Refused> CreatedOrRefused<T>(this Result<T> result, Func<T, string> address) =>
        result.Refusal is { } refusal ? (Refused)refusal : TypedResults.Created(address(result.Value), result.Value);
}
