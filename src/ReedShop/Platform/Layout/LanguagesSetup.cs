using System.Globalization;
using Microsoft.AspNetCore.Localization;

namespace ReedShop.Platform.Layout;

public static class LanguagesSetup
{
    /// <summary>What is written outside a request (letters, files) does not depend on the machine either.</summary>
    public static void AddLanguages(this IServiceCollection services)
    {
        CultureInfo.DefaultThreadCurrentCulture = CultureInfo.InvariantCulture;
        CultureInfo.DefaultThreadCurrentUICulture = CultureInfo.InvariantCulture;
        services.Configure<RequestLocalizationOptions>(options =>
        {
            options.DefaultRequestCulture = new RequestCulture(CultureInfo.InvariantCulture);
            options.SupportedCultures = [CultureInfo.InvariantCulture];
            options.SupportedUICultures = [.. Languages.All];
            options.RequestCultureProviders = [new VisitorsLanguage()];
        });
    }

    public static void UseLanguages(this IApplicationBuilder app)
    {
        app.UseRequestLocalization();
        app.Use(VisitorsLanguage.Remember);
    }
}
