using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.Primitives;
using ReedShop.Platform.Http;

namespace ReedShop.Platform.Layout;

/// <summary>Pages as answers of endpoints.</summary>
public static class Pages
{
    public static RazorComponentResult Show<TPage>(object parameters, Refusal? refusal = null)
        where TPage : IComponent =>
        new RazorComponentResult<TPage>(parameters) { StatusCode = refusal?.Kind.Status ?? StatusCodes.Status200OK };

    public static RazorComponentResult Refuse(Refusal refusal, string back, string? here = null) =>
        Show<RefusalPage>(
            new
            {
                Refusal = refusal,
                Back = back,
                Here = here,
            },
            refusal
        );

    /// <summary>A refusal of the moment, with a button that sends the same again.</summary>
    public static RazorComponentResult TryAgain(Refusal refusal, HttpRequest request)
    {
        IEnumerable<KeyValuePair<string, StringValues>> fields = request.HasFormContentType
            ? request.Form
            : request.Query;
        return Show<TryAgainPage>(
            new
            {
                Refusal = refusal,
                request.Method,
                Address = request.Path.Value,
                Typed = fields.SelectMany(field => field.Value.Select(value => (field.Key, value ?? ""))).ToArray(),
                Here = request.Path.IsForOwner() ? request.Path.Value : null,
            },
            refusal
        );
    }

    /// <summary>After a change the browser is sent on to a page it may load again without changing anything twice.</summary>
    public static IResult Go(string address) => new SeeOther(address);

    private sealed class SeeOther(string address) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext)
        {
            httpContext.Response.StatusCode = StatusCodes.Status303SeeOther;
            httpContext.Response.Headers.Location = address;
            return Task.CompletedTask;
        }
    }
}
