using System.Globalization;

namespace ReedShop.Platform.Layout;

/// <summary>Reads fields of a posted form. What is not a whole number is refused by the name of its field.</summary>
public static class FormReading
{
    public static string Text(this IFormCollection form, string name) => form[name].ToString().Trim();

    /// <summary>A whole number of 0 or more, or null where the field is left empty.</summary>
    public static Result<int?> Whole(this IFormCollection form, string name)
    {
        var text = form.Text(name);
        return text.Length == 0 ? (int?)null
            : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number
            : Refusal.Invalid(name, $"“{text}” is not a number.", "a whole number of 0 or more");
    }

    /// <summary>All these fields as whole numbers, empty ones as 0, or the first refusal.</summary>
    public static Result<IReadOnlyDictionary<string, int>> Wholes(
        this IFormCollection form,
        params IEnumerable<string> names
    )
    {
        var numbers = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var name in names)
        {
            var read = form.Whole(name);
            if (read.Refusal is { } refusal)
            {
                return refusal;
            }

            numbers[name] = read.Value ?? 0;
        }

        return numbers;
    }

    /// <summary>Refuses a change to what has another version than the page it was sent from.</summary>
    public static VersionCheck SeenVersion(this IFormCollection form) =>
        version =>
            form.Text("version") == version.ToString(CultureInfo.InvariantCulture)
                ? null
                : new Refusal(
                    RefusalKind.ChangedMeanwhile,
                    "It was changed since this page was opened, so nothing was saved.",
                    "version",
                    "what stands here now, sent once more"
                );

    /// <summary>
    /// The version a refused form is shown again with: the one it was opened with, until its owner has been told that
    /// there is another.
    /// </summary>
    public static string NextVersion(this IFormCollection form, Refusal refusal, int current) =>
        refusal.Kind == RefusalKind.ChangedMeanwhile ? Words.Plain(current) : form.Text("version");
}
