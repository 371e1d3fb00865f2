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
        chance                                        how long the chances for every number of blanks take
        coverage [--trials 300] [--seed 1]            how often a sized batch is enough: plugged in, and predictive
        """;

    private static readonly string[] Options = ["--ms", "--seed", "--reference", "--quotes", "--trials"];

    private Arguments() { }

    public sealed record MakePlan(string Case, TimeSpan Time, ulong Seed) : Arguments;

    public sealed record AnswerQuote(string Case, int Index, TimeSpan Time, ulong Seed) : Arguments;

    public sealed record TimeRules(string Case, TimeSpan Time, ulong Seed) : Arguments;

    public sealed record Compare(string Folder, TimeSpan Time, ulong Seed, string? Quotes, string? Reference)
        : Arguments;

    public sealed record TimeChances : Arguments;

    public sealed record TryCoverage(int Trials, int Seed) : Arguments;

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

        var read = plain switch
        {
            ["chance"] when options.Count == 0 => new TimeChances(),
            ["coverage"] => ReadCoverage(options),
            _ => ReadPlanning(plain, options),
        };
        refusal = read is null
            ? $"This is not a question the lab knows, or a value is not a whole number: {string.Join(' ', words)}"
            : "";
        return read;
    }

    private static TryCoverage? ReadCoverage(Dictionary<string, string> options) =>
        options.Keys.All(option => option is "--trials" or "--seed")
        && IsWhole(options.GetValueOrDefault("--trials", "300"), out var trials)
        && trials > 0
        && IsWhole(options.GetValueOrDefault("--seed", "1"), out var seed)
            ? new TryCoverage(trials, seed)
            : null;

    private static Arguments? ReadPlanning(List<string> plain, Dictionary<string, string> options)
    {
        if (
            options.ContainsKey("--trials")
            || !IsWhole(options.GetValueOrDefault("--ms"), out var ms)
            || !IsWhole(options.GetValueOrDefault("--seed", "1"), out var seed)
        )
        {
            return null;
        }

        var time = TimeSpan.FromMilliseconds(ms);
        var (quotes, reference) = (options.GetValueOrDefault("--quotes"), options.GetValueOrDefault("--reference"));
        return plain switch
        {
            ["plan", var file] when quotes is null && reference is null => new MakePlan(file, time, (ulong)seed),
            ["quote", var file, var index] when quotes is null && reference is null && IsWhole(index, out var number) =>
                new AnswerQuote(file, number, time, (ulong)seed),
            ["rules", var file] when quotes is null && reference is null => new TimeRules(file, time, (ulong)seed),
            ["cases", var folder] => new Compare(folder, time, (ulong)seed, quotes, reference),
            _ => null,
        };
    }

    private static bool IsWhole(string? text, out int number) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number);
}
