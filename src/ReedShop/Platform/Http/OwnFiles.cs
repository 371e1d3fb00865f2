using System.Security.Cryptography;
using Microsoft.Extensions.FileProviders;

namespace ReedShop.Platform.Http;

/// <summary>
/// The style and the scripts of the pages. They lie beside the program, so that it may be started from any folder.
/// Pages ask for them by what is in them, so that a browser keeps them for good and a new version is fetched at once.
/// </summary>
internal static class OwnFiles
{
    private const int MarkBytes = 6;

    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "wwwroot");

    private static readonly Dictionary<string, string> Marks = Directory
        .GetFiles(Folder)
        .ToDictionary(file => Path.GetFileName(file), MarkOf, StringComparer.Ordinal);

    /// <summary>The address of a file of wwwroot, with the mark of its content.</summary>
    public static string Address(string name) => $"/{name}?is={Marks[name]}";

    public static void UseOwnFiles(this IApplicationBuilder app) =>
        app.UseStaticFiles(
            new StaticFileOptions
            {
                FileProvider = new PhysicalFileProvider(Folder),
                OnPrepareResponse = file =>
                    file.Context.Response.Headers.CacheControl = IsMarked(file.Context.Request, file.File.Name)
                        ? "public, max-age=31536000, immutable"
                        : "public, no-cache",
            }
        );

    /// <summary>A mark of another version must not be kept: what is sent is not what was asked for.</summary>
    private static bool IsMarked(HttpRequest request, string name) =>
        Marks.TryGetValue(name, out var mark) && request.Query["is"] == mark;

    private static string MarkOf(string file) =>
        Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file)).AsSpan(0, MarkBytes));
}
