using System.Globalization;
using ReedShop.Lab.Trials;

namespace ReedShop.Lab;

/// <summary>What the lab was asked to do.</summary>
internal abstract record Arguments
{
    public const string Accepted = """
        plan CASE.json EFFORT [--seed 1]              a plan for a case
        quote CASE.json INDEX EFFORT [--seed 1]       the plan that answers a quote question of a case
        rules CASE.json EFFORT [--seed 1]             time to check a plan of a case and to recover it
        cases FOLDER reference.csv EFFORT [--seeds 11]
                                                      plans beside the best known, by size and by load
        quotes FOLDER reference.csv EFFORT [--seeds 3]
                                                      quotes beside the best known finish, by size
        constructions FOLDER                          time of one construction with justification, by size
        optima EFFORT [--cases 200]                   plans of small random cases beside proven optima
        chance                                        how long the chances for every number of blanks take
        draws                                         how long draws of a whole shop take, by open batches
        kept-draws [--trials 12] [--seed 1]           chances by kept draws of so many shops beside draws with the order in
        coverage [--trials 300] [--seed 1]            how often a sized batch is enough: plugged in, and predictive
        trials [--shops 200] [--years 2] [--seed 1] [--minutes 30] [--diagram FILE] [--alone] [--always] [--without evenings] [--without damp]
                                                      promises of invented shops, kept against recorded, and by
                                                      rules of thumb unless the program is alone; buyers who wait
                                                      too long go elsewhere, unless they always accept; without
                                                      the evenings that are lost or slow, or without damp nights
               [--shock cane|demand|illness|told-illness]...
                                                      what sets in after a year: kept month by month, beside the same
                                                      shops without it
        EFFORT is --ms 100, or --rounds 5000 for an answer that can be repeated.
        """;

    private static readonly string[] Options = ["--ms", "--rounds", "--seed", "--seeds", "--cases", "--trials"];

    private Arguments() { }

    public sealed record MakePlan(string Case, Effort Effort, ulong Seed) : Arguments;

    public sealed record AnswerQuote(string Case, int Index, Effort Effort, ulong Seed) : Arguments;

    public sealed record TimeRules(string Case, Effort Effort, ulong Seed) : Arguments;

    public sealed record ComparePlans(string Folder, string Reference, Effort Effort, int Seeds) : Arguments;

    public sealed record CompareQuotes(string Folder, string Reference, Effort Effort, int Seeds) : Arguments;

    public sealed record TimeConstructions(string Folder) : Arguments;

    public sealed record CompareOptima(Effort Effort, int Cases) : Arguments;

    public sealed record TimeChances : Arguments;

    public sealed record TimeDraws : Arguments;

    public sealed record CompareDraws(int Shops, int Seed) : Arguments;

    public sealed record TryCoverage(int Trials, int Seed) : Arguments;

    /// <param name="Diagram">Where a drawing is written, if anywhere.</param>
    public sealed record TryPromises(TrialPlan Plan, bool IsAlone, string? Diagram) : Arguments
    {
        public IReadOnlyList<Rule> Rules => IsAlone ? [Rule.Program] : Rule.All;
    }

    /// <param name="Shocks">Each in a run of its own.</param>
    public sealed record TryShocks(TrialPlan Plan, IReadOnlyList<Shock> Shocks) : Arguments;

    /// <summary>Null with a sentence that says what is wrong.</summary>
    public static Arguments? Read(string[] words, out string refusal)
    {
        if (words is ["trials", .. var ofTrials])
        {
            return TrialArguments.Read(ofTrials, out refusal);
        }

        var options = new Dictionary<string, int>(StringComparer.Ordinal);
        var plain = new List<string>();
        refusal = "";
        for (var i = 0; i < words.Length; i++)
        {
            if (!words[i].StartsWith('-'))
            {
                plain.Add(words[i]);
            }
            else if (!ReadOption(words, ref i, options))
            {
                refusal = $"{words[i]} is unknown, given twice, or lacks its value, a whole number.";
                return null;
            }
        }

        var read = ReadQuestion(plain, options);
        refusal =
            read is null ? $"This is not a question the lab knows: {string.Join(' ', words)}"
            : options.Count > 0 ? $"{string.Join(", ", options.Keys)} means nothing here."
            : "";
        return refusal.Length == 0 ? read : null;
    }

    private static bool ReadOption(string[] words, ref int at, Dictionary<string, int> options)
    {
        var name = words[at];
        return Options.Contains(name)
            && at + 1 < words.Length
            && int.TryParse(words[at + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && number > 0
            && options.TryAdd(name, number)
            && ++at > 0;
    }

    private static Arguments? ReadQuestion(List<string> plain, Dictionary<string, int> options)
    {
        switch (plain)
        {
            case ["chance"]:
                return new TimeChances();
            case ["draws"]:
                return new TimeDraws();
            case ["kept-draws"]:
                return new CompareDraws(Take(options, "--trials", 12), Take(options, "--seed", 1));
            case ["coverage"]:
                return new TryCoverage(Take(options, "--trials", 300), Take(options, "--seed", 1));
            case ["constructions", var folder]:
                return new TimeConstructions(folder);
        }

        return ReadEffort(options) is { } effort ? ReadPlanning(plain, effort, options) : null;
    }

    private static Arguments? ReadPlanning(List<string> plain, Effort effort, Dictionary<string, int> options) =>
        plain switch
        {
            ["plan", var file] => new MakePlan(file, effort, SeedOf(options)),
            ["quote", var file, var index]
                when int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out var number) =>
                new AnswerQuote(file, number, effort, SeedOf(options)),
            ["rules", var file] => new TimeRules(file, effort, SeedOf(options)),
            ["cases", var folder, var known] => new ComparePlans(folder, known, effort, Take(options, "--seeds", 11)),
            ["quotes", var folder, var known] => new CompareQuotes(folder, known, effort, Take(options, "--seeds", 3)),
            ["optima"] => new CompareOptima(effort, Take(options, "--cases", 200)),
            _ => null,
        };

    private static Effort? ReadEffort(Dictionary<string, int> options)
    {
        int? milliseconds = options.Remove("--ms", out var ms) ? ms : null;
        int? rounds = options.Remove("--rounds", out var count) ? count : null;
        return milliseconds is null == rounds is null ? null : new Effort(milliseconds, rounds);
    }

    private static ulong SeedOf(Dictionary<string, int> options) => (ulong)Take(options, "--seed", 1);

    private static int Take(Dictionary<string, int> options, string name, int otherwise) =>
        options.Remove(name, out var number) ? number : otherwise;
}
