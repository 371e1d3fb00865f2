using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http.HttpResults;

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
