using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace ReedShop.Tests.Platform;

/// <summary>The resource files as they lie in the source: what a translation must not leave out.</summary>
public sealed partial class TextsFacts
{
    private static readonly string[] Languages = ["pt", "de", "fr"];

    public static TheoryData<string, string> Translations =>
        [
            .. English()
                .SelectMany(_ => Languages, (file, language) => (Path.GetFileNameWithoutExtension(file), language)),
        ];

    [Fact]
    public void The_files_of_wording_are_found() =>
        Assert.Superset(
            new HashSet<string>(["FrameTexts", "QuoteTexts", "OrderTexts", "CheckoutTexts"]),
            English().Select(file => Path.GetFileNameWithoutExtension(file)).ToHashSet()
        );

    [Theory]
    [MemberData(nameof(Translations))]
    public void Every_text_is_translated_with_the_same_places(string name, string language)
    {
        var file = English().Single(found => Path.GetFileNameWithoutExtension(found) == name);
        var english = Read(file);
        var translated = Read(Path.ChangeExtension(file, $".{language}.resx"));

        Assert.Equal(english.Keys.Order(StringComparer.Ordinal), translated.Keys.Order(StringComparer.Ordinal));
        Assert.All(english, text => Assert.Equal(Places(text.Value), Places(translated[text.Key])));
        Assert.All(translated.Values, text => Assert.False(string.IsNullOrWhiteSpace(text)));
    }

    [Fact]
    public void American_English_differs_in_how_days_are_written_only()
    {
        var file = English().Single(found => Path.GetFileNameWithoutExtension(found) == "FrameTexts");
        Assert.All(
            Read(Path.ChangeExtension(file, ".en-US.resx")).Keys,
            key => Assert.StartsWith("Day.", key, StringComparison.Ordinal)
        );
    }

    /// <summary>All English texts of the buyers' pages, by file.</summary>
    internal static IEnumerable<string> EnglishTexts() => English().SelectMany(file => Read(file).Values);

    /// <summary>Files without a language in their name.</summary>
    private static IEnumerable<string> English() =>
        Directory
            .EnumerateFiles(Path.Combine(Repository(), "src", "ReedShop"), "*.resx", SearchOption.AllDirectories)
            .Where(file => !Path.GetFileNameWithoutExtension(file).Contains('.', StringComparison.Ordinal));

    private static Dictionary<string, string> Read(string file) =>
        XDocument
            .Load(file)
            .Root!.Elements("data")
            .ToDictionary(data => data.Attribute("name")!.Value, data => data.Element("value")!.Value);

    private static string[] Places(string text) =>
        [.. Place().Matches(text).Select(place => place.Value).Distinct().Order(StringComparer.Ordinal)];

    private static string Repository()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ReedShop.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The tests run outside the repository.");
        }

        return folder.FullName;
    }

    [GeneratedRegex(@"\{\d\}", RegexOptions.None, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Place();
}
