using System.Globalization;
using Microsoft.AspNetCore.Localization;
using ReedShop.Platform.Http;

namespace ReedShop.Platform.Layout;

/// <summary>
/// Which language a request is answered in: buyers' pages in the one that was chosen or that the browser asks for, other
/// pages in the English of either country, scripts in none. Only the language of the page (CurrentUICulture) follows
/// the visitor; what the program itself writes and reads (CurrentCulture) is the same for all, so that no figure of an
/// address, a drawing or a file ever gets a decimal comma.
/// </summary>
internal sealed class VisitorsLanguage : RequestCultureProvider
{
    private const string Query = "lang";
    private const string Cookie = "reedshop.language";

    private static readonly TimeSpan Remembered = TimeSpan.FromDays(365);

    private static readonly IRequestCultureProvider[] Wishes =
    [
        new QueryStringRequestCultureProvider { QueryStringKey = Query, UIQueryStringKey = Query },
        new CookieRequestCultureProvider { CookieName = Cookie },
        new AcceptLanguageHeaderRequestCultureProvider { MaximumAcceptLanguageHeaderValuesToTry = 10 },
    ];

    public override async Task<ProviderCultureResult?> DetermineProviderCultureResult(HttpContext httpContext)
    {
        var path = httpContext.Request.Path;
        if (path.IsForScripts() || path.IsWebhook())
        {
            return null;
        }

        var wishes = new List<string>();
        foreach (var provider in Wishes)
        {
            var wished = await provider.DetermineProviderCultureResult(httpContext);
            wishes.AddRange(wished?.UICultures.Select(name => name.ToString()) ?? []);
        }

        var language =
            Languages.Nearest(wishes, culture => path.IsForBuyers() || IsEnglish(culture)) ?? Languages.Usual;
        return new ProviderCultureResult(CultureInfo.InvariantCulture.Name, language.Name);
    }

    /// <summary>A language that was chosen by its link stays chosen.</summary>
    public static Task Remember(HttpContext http, RequestDelegate next)
    {
        if (http.Request.Path.IsForBuyers() && http.Request.Query.ContainsKey(Query))
        {
            http.Response.Cookies.Append(
                Cookie,
                CookieRequestCultureProvider.MakeCookieValue(
                    new RequestCulture(CultureInfo.InvariantCulture, CultureInfo.CurrentUICulture)
                ),
                new CookieOptions
                {
                    HttpOnly = true,
                    Secure = http.Request.IsHttps,
                    SameSite = SameSiteMode.Lax,
                    MaxAge = Remembered,
                }
            );
        }

        return next(http);
    }

    private static bool IsEnglish(CultureInfo culture) => Languages.Of(culture) == Languages.Of(Languages.Usual);
}
