using System.Globalization;

namespace ReedShop.Lab;

/// <summary>What the lab was asked to do.</summary>
internal abstract record Arguments
{
    public const string Accepted = """
        plan CASE.json --ms 100 [--seed 1]            a plan for a case
        quote CASE.json INDEX --ms 100 [--seed 1]     the plan that answers a quote question of a case
        rules CASE.json --ms 100 [--seed 1]           time to check a plan of a case and to recover it
        cases FOLDER --ms 100 [--seed 1] [--quotes FOLDER] [--reference reference.csv]
                                                      how near the planner comes to the best known, by size
        """;

    private static readonly string[] Options = ["--ms", "--seed", "--reference", "--quotes"];

    private Arguments() { }

    public sealed record MakePlan(string Case, TimeSpan Time, ulong Seed) : Arguments;

    public sealed record AnswerQuote(string Case, int Index, TimeSpan Time, ulong Seed) : Arguments;

    public sealed record TimeRules(string Case, TimeSpan Time, ulong Seed) : Arguments;

    public sealed record Compare(string Folder, TimeSpan Time, ulong Seed, string? Quotes, string? Reference)
        : Arguments;

    /// <summary>Null with a sentence that says what is wrong.</summary>
    public static Arguments? Read(string[] words, out string refusal)
    {
        var options = new Dictionary<string, string>(StringComparer.Ordinal);
        var plain = new List<string>();
        refusal = "";
        for (var i = 0; i < words.Length; i++)
        {
            if (!words[i].StartsWith('-'))
            {
                plain.Add(words[i]);
            }
            else if (!Options.Contains(words[i]) || i + 1 == words.Length || !options.TryAdd(words[i], words[++i]))
            {
                refusal = $"{words[i]} is unknown, given twice, or lacks its value.";
                return null;
            }
        }

        if (
            !int.TryParse(
                options.GetValueOrDefault("--ms"),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var ms
            )
        )
        {
            refusal = "--ms takes the whole milliseconds to plan for.";
            return null;
        }

        if (
            !ulong.TryParse(
                options.GetValueOrDefault("--seed", "1"),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var seed
            )
        )
        {
            refusal = "--seed takes a whole number.";
            return null;
        }

        var time = TimeSpan.FromMilliseconds(ms);
        var (quotes, reference) = (options.GetValueOrDefault("--quotes"), options.GetValueOrDefault("--reference"));
        Arguments? read = plain switch
        {
            ["plan", var file] when quotes is null && reference is null => new MakePlan(file, time, seed),
            ["quote", var file, var index]
                when quotes is null
                    && reference is null
                    && int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out var number) =>
                new AnswerQuote(file, number, time, seed),
            ["rules", var file] when quotes is null && reference is null => new TimeRules(file, time, seed),
            ["cases", var folder] => new Compare(folder, time, seed, quotes, reference),
            _ => null,
        };
        refusal = read is null ? $"This is not a question the lab knows: {string.Join(' ', words)}" : "";
        return read;
    }
}
