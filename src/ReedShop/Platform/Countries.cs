using System.Collections.Concurrent;
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

    /// <summary>Names by code, for each language: the data is slow to ask.</summary>
    private static readonly ConcurrentDictionary<string, IReadOnlyDictionary<string, string>> Names = new(
        StringComparer.Ordinal
    );

    private static readonly Lazy<Dictionary<string, string>> ByName = new(ReadNames);

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

    /// <summary>"France", "Frankreich": in the language of the reader.</summary>
    public static string Name(string code) => NamesIn(Languages.Of(Words.Culture))[code];

    /// <summary>With their names, in the order in which the reader looks them up.</summary>
    public static IReadOnlyList<(string Code, string Name)> Named(IEnumerable<string> codes) =>
        [
            .. codes
                .Select(code => (Code: code, Name: Name(code)))
                .OrderBy(country => country.Name, StringComparer.Create(Words.Culture, ignoreCase: true)),
        ];

    /// <summary>A region tells its own name in the language it is asked in, such as "de-FR".</summary>
    private static IReadOnlyDictionary<string, string> NamesIn(string language) =>
        Names.GetOrAdd(
            language,
            _ =>
                Known.Value.ToDictionary(
                    code => code,
                    code => new RegionInfo($"{language}-{code}").NativeName,
                    StringComparer.Ordinal
                )
        );

    private static Dictionary<string, string> ReadNames()
    {
        var codes = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var (code, name) in Languages.Choice.SelectMany(culture => NamesIn(Languages.Of(culture))))
        {
            codes.TryAdd(name, code);
        }

        return codes;
    }
}
