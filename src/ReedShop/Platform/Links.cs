using System.Security.Cryptography;
using System.Text.RegularExpressions;

namespace ReedShop.Platform;

/// <summary>Names for things that are reached by a link: 128 random bits, so that none can be guessed.</summary>
public static partial class Links
{
    private const int Bytes = 16;

    public static string New() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(Bytes));

    /// <summary>A name as it came back from a form; null if it is none of ours.</summary>
    public static string? Read(string? text) => text is { Length: 2 * Bytes } && Name().IsMatch(text) ? text : null;

    /// <summary>The text with every link name in it blacked out: who reads a log must not be able to follow links.</summary>
    public static string Mask(string text) => Name().Replace(text, "(link)");

    [GeneratedRegex("[0-9a-fA-F]{32}", RegexOptions.CultureInvariant | RegexOptions.NonBacktracking)]
    private static partial Regex Name();
}
