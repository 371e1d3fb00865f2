using System.Globalization;

namespace ReedShop.Platform.Layout;

/// <summary>The languages of the buyers' pages, each with the countries whose dates, numbers and money it writes.</summary>
public static class Languages
{
    /// <summary>The first of a language serves those who name no country, or one that is not here.</summary>
    public static IReadOnlyList<CultureInfo> All { get; } =
    [.. new[] { "en-GB", "en-US", "pt-PT", "pt-BR", "de-DE", "fr-FR" }.Select(CultureInfo.GetCultureInfo)];

    /// <summary>What the shop is written in, where nobody asks for another.</summary>
    public static CultureInfo Usual => All[0];

    /// <summary>One of each language, to choose from.</summary>
    public static IEnumerable<CultureInfo> Choice => All.DistinctBy(Of, StringComparer.Ordinal);

    /// <summary>"de" of "de-DE".</summary>
    public static string Of(CultureInfo culture) => culture.TwoLetterISOLanguageName;

    /// <summary>"Português": a language by its own name.</summary>
    public static string OwnName(CultureInfo culture) => culture.TextInfo.ToTitleCase(culture.Parent.NativeName);

    /// <summary>"German", of "de-DE".</summary>
    public static string EnglishName(string name) => CultureInfo.GetCultureInfo(name).Parent.EnglishName;

    /// <summary>Writes something in another language than that of the request, such as a letter to somebody else.</summary>
    /// <param name="name">Of one of <see cref="All"/>.</param>
    public static T In<T>(string name, Func<T> write)
    {
        var before = CultureInfo.CurrentUICulture;
        CultureInfo.CurrentUICulture = All.Single(culture => culture.Name == name);
        try
        {
            return write();
        }
        finally
        {
            CultureInfo.CurrentUICulture = before;
        }
    }

    /// <summary>
    /// The first wish that can be met. A wish for a language alone, or with a country that is not here, takes the country
    /// from a later wish for that language.
    /// </summary>
    /// <param name="wishes">Names such as "fr-CA", the dearest first.</param>
    public static CultureInfo? Nearest(IReadOnlyList<string> wishes, Func<CultureInfo, bool> isOffered)
    {
        var offered = All.Where(isOffered).ToArray();
        return wishes
            .Select(wish => offered.Where(culture => IsLanguageOf(culture, wish)).ToArray())
            .Where(found => found.Length > 0)
            .Select(found => wishes.Select(wish => Exactly(found, wish)).OfType<CultureInfo>().FirstOrDefault(found[0]))
            .FirstOrDefault();
    }

    private static bool IsLanguageOf(CultureInfo culture, string wish) =>
        wish.Split('-')[0].Equals(Of(culture), StringComparison.OrdinalIgnoreCase);

    private static CultureInfo? Exactly(CultureInfo[] found, string wish) =>
        Array.Find(found, culture => culture.Name.Equals(wish, StringComparison.OrdinalIgnoreCase));
}
