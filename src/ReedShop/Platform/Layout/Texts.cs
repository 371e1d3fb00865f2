using System.Globalization;
using Microsoft.Extensions.Localization;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Options;

namespace ReedShop.Platform.Layout;

/// <summary>
/// The wording of one folder, from the resources beside its pages, in the language of the request. It is no part of the
/// container, because refusals and reasons are made in plain functions that no container reaches.
/// </summary>
/// <param name="name">The type the resource files are named after: OrderTexts.resx in English, OrderTexts.de.resx.</param>
public sealed class Texts(Type name)
{
    private static readonly ResourceManagerStringLocalizerFactory Factory = new(
        Options.Create(new LocalizationOptions()),
        NullLoggerFactory.Instance
    );

    private readonly IStringLocalizer found = Factory.Create(name);

    /// <summary>A text that is missing is a fault of ours, found by the first test that shows its page.</summary>
    public string this[string key] =>
        Find(key) ?? throw new InvalidOperationException($"{name.Name} has no text {key}.");

    /// <summary>A text that need not be there.</summary>
    public string? Find(string key) => found[key] is { ResourceNotFound: false } text ? text.Value : null;

    /// <param name="parts">Figures and days come as <see cref="Words"/> says them; anything else is written plainly.</param>
    public string this[string key, params object[] parts] =>
        string.Format(CultureInfo.InvariantCulture, this[key], parts);

    /// <summary>The text of "key.one" or "key.other", whose {0} is the count.</summary>
    public string Count(string key, int count, params object[] parts) =>
        this[$"{key}.{(Words.IsOne(count) ? "one" : "other")}", [Words.Number(count), .. parts]];
}
