using System.Globalization;
using ReedShop.Platform.Layout;

namespace ReedShop.Platform;

/// <summary>Countries by their codes of ISO 3166-1, as far as .NET's data (CLDR) knows them.</summary>
public static class Countries
{
    public const int CodeLetters = 2;

    // The United Kingdom goes by UK as well as by its code.
    private const string UnitedKingdom = "GB";
    private const string UnitedKingdomToo = "UK";

    private static readonly Lazy<HashSet<string>> Known = new(() =>
        CultureInfo
            .GetCultures(CultureTypes.SpecificCultures)
            .Select(culture => new RegionInfo(culture.Name).TwoLetterISORegionName)
            .Where(code => code.Length == CodeLetters && code.All(char.IsAsciiLetterUpper))
            .ToHashSet(StringComparer.Ordinal)
    );

    private static readonly Lazy<Dictionary<string, string>> ByName = new(Names);

    /// <summary>In the order of their codes.</summary>
    public static IEnumerable<string> All => Known.Value.Order(StringComparer.Ordinal);

    /// <summary>The code of a country that is named by it, or written out in a language of the shop; null where there is none.</summary>
    public static string? Read(string text)
    {
        var code = text.Trim().ToUpperInvariant();
        return code == UnitedKingdomToo ? UnitedKingdom
            : Known.Value.Contains(code) ? code
            : ByName.Value.GetValueOrDefault(text.Trim());
    }

    /// <summary>"France", "Frankreich": in the language of the reader. A region's own name for itself is kept by .NET for each language.</summary>
    public static string Name(string code) => NameIn(Languages.Of(Words.Culture), code);

    private static string NameIn(string language, string code) => new RegionInfo($"{language}-{code}").NativeName;

    private static Dictionary<string, string> Names()
    {
        var names = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var language in Languages.All.Select(Languages.Of).Distinct(StringComparer.Ordinal))
        {
            foreach (var code in Known.Value)
            {
                names.TryAdd(NameIn(language, code), code);
            }
        }

        return names;
    }
}
