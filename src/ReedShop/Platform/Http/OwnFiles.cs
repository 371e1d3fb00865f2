using Microsoft.Extensions.FileProviders;

namespace ReedShop.Platform.Http;

/// <summary>
/// The style and the scripts of the pages. They lie beside the program, so that it may be started from any folder.
/// </summary>
internal static class OwnFiles
{
    public static void UseOwnFiles(this IApplicationBuilder app) =>
        app.UseStaticFiles(
            new StaticFileOptions
            {
                FileProvider = new PhysicalFileProvider(Path.Combine(AppContext.BaseDirectory, "wwwroot")),
                OnPrepareResponse = file => file.Context.Response.Headers.CacheControl = "public, no-cache",
            }
        );
}
