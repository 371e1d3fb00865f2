namespace ReedShop.Payments;

/// <summary>A font for PDFs: the files of its plain and of its bold letters.</summary>
public sealed record PdfFont(string Plain, string Bold);

/// <summary>
/// The fonts PDFs are written with, the preferred first. Those that every PDF reader brings along have no letters of
/// Poland, Greece or Bulgaria, and none is part of this program: they are taken from the machine it runs on.
/// </summary>
public sealed class PdfFonts(IReadOnlyList<PdfFont> all)
{
    /// <summary>The Debian package of the first of them.</summary>
    public const string Package = "fonts-dejavu-core";

    /// <summary>
    /// Fonts with Latin, Greek and Cyrillic letters, and last one with Chinese and Japanese; those of Debian, Fedora,
    /// Windows and macOS by the names of their files (those of Windows, macOS and Fedora from memory).
    /// </summary>
    private static readonly PdfFont[] Known =
    [
        new("DejaVuSans.ttf", "DejaVuSans-Bold.ttf"),
        new("LiberationSans-Regular.ttf", "LiberationSans-Bold.ttf"),
        new("NotoSans-Regular.ttf", "NotoSans-Bold.ttf"),
        new("segoeui.ttf", "segoeuib.ttf"),
        new("arial.ttf", "arialbd.ttf"),
        new("Arial.ttf", "Arial Bold.ttf"),
        new("Arial Unicode.ttf", "Arial Unicode.ttf"),
        new("DroidSansFallbackFull.ttf", "DroidSansFallbackFull.ttf"),
    ];

    private static readonly string[] Folders =
    [
        "/usr/share/fonts",
        "/usr/local/share/fonts",
        "/Library/Fonts",
        "/System/Library/Fonts",
        Environment.GetFolderPath(Environment.SpecialFolder.Fonts),
    ];

    private static readonly EnumerationOptions Everywhere = new()
    {
        RecurseSubdirectories = true,
        IgnoreInaccessible = true,
    };

    public IReadOnlyList<PdfFont> All => all;

    /// <param name="own">A font file that is asked first, if any.</param>
    public static PdfFonts Of(string? own) =>
        new([.. own is null ? Array.Empty<PdfFont>() : [new PdfFont(own, own)], .. OfTheMachine()]);

    /// <summary>Whether a file begins as a TrueType font does, the one kind that can be embedded here.</summary>
    public static bool IsTrueType(string path)
    {
        try
        {
            using var file = File.OpenRead(path);
            Span<byte> start = stackalloc byte[4];
            return file.ReadAtLeast(start, start.Length, throwOnEndOfStream: false) == start.Length
                && (start.SequenceEqual<byte>([0, 1, 0, 0]) || start.SequenceEqual("true"u8));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static IEnumerable<PdfFont> OfTheMachine()
    {
        var files = Folders
            .Where(Directory.Exists)
            .SelectMany(folder => Directory.EnumerateFiles(folder, "*.ttf", Everywhere))
            .GroupBy(file => Path.GetFileName(file), StringComparer.Ordinal)
            .ToDictionary(same => same.Key, same => same.Order(StringComparer.Ordinal).First(), StringComparer.Ordinal);
        return Known
            .Where(font => files.ContainsKey(font.Plain) && files.ContainsKey(font.Bold))
            .Select(font => new PdfFont(files[font.Plain], files[font.Bold]));
    }
}
