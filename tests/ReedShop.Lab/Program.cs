using System.Text.Json;
using ReedShop.Lab;
using ReedShop.Lab.Trials;
using ReedShop.Planning.Scheduling;

var asked = Arguments.Read(args, out var refusal);
if (asked is null)
{
    return Refuse($"{refusal}\nAccepted are:\n{Arguments.Accepted}");
}

try
{
    if (
        asked
        is not (
            Arguments.TimeChances
            or Arguments.TimeDraws
            or Arguments.CompareDraws
            or Arguments.TryCoverage
            or Arguments.TryPromises
            or Arguments.TryShocks
        )
    )
    {
        Warm.Up();
    }

    switch (asked)
    {
        case Arguments.MakePlan make:
            return Print(CaseFile.Read(make.Case), make);
        case Arguments.AnswerQuote quote:
            return Answer(CaseFile.Read(quote.Case), quote);
        case Arguments.TimeRules rules:
            Console.Out.WriteLine(RuleTimes.Of(CaseFile.Read(rules.Case), rules));
            return 0;
        case Arguments.ComparePlans compare:
            Console.Out.Write(PlanComparison.Table(compare));
            return 0;
        case Arguments.CompareQuotes compare:
            Console.Out.Write(QuoteComparison.Table(compare));
            return 0;
        case Arguments.CompareOptima compare:
            Console.Out.Write(OptimumComparison.Table(compare));
            return 0;
        case Arguments.TimeConstructions time:
            Console.Out.Write(ConstructionTimes.Table(time.Folder));
            return 0;
        case Arguments.TimeChances:
            Console.Out.Write(ChanceTimes.Table());
            return 0;
        case Arguments.TimeDraws:
            Console.Out.Write(DrawTimes.Table());
            return 0;
        case Arguments.CompareDraws compare:
            Console.Out.Write(KeptDraws.Table(compare.Shops, compare.Seed));
            return 0;
        case Arguments.TryCoverage trials:
            Console.Out.Write(Coverage.Table(trials.Trials, trials.Seed));
            return 0;
        case Arguments.TryPromises promises:
            return Try(promises);
        case Arguments.TryShocks shocks:
            return TryShocks(shocks);
        default:
            return 2;
    }
}
catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException or JsonException)
{
    return Refuse($"A file cannot be read or written: {unreadable.Message}");
}

static int Print(CaseFile file, Arguments.MakePlan make)
{
    var plan = Planner.Build(file.Work, make.Effort.Budget(make.Seed));
    Console.Out.WriteLine(JsonSerializer.Serialize(new { days = plan.Days }));
    return 0;
}

static int Answer(CaseFile file, Arguments.AnswerQuote quote)
{
    if (quote.Index >= file.Asked.Count)
    {
        return Refuse($"The case has {file.Asked.Count} quote questions, numbered from 0.");
    }

    var budget = quote.Effort.Budget(quote.Seed);
    var plan = Planner.QuoteEarliest(file.Work, file.Promised, file.Asked[quote.Index], budget);
    if (plan is null)
    {
        Console.Error.WriteLine("No plan keeps every promise and makes the new batch.");
        return 1;
    }

    Console.Out.WriteLine(JsonSerializer.Serialize(new { quote = quote.Index, days = plan.Days }));
    return 0;
}

static int Try(Arguments.TryPromises asked)
{
    var results = TrialRun.Of(asked.Plan, asked.Rules, Progress(asked.Plan));
    Console.Out.Write(TrialReport.Of(asked.Plan, asked.Rules, results));
    if (asked.Diagram is { } file)
    {
        File.WriteAllText(file, TrialReport.Diagram(results[0]));
    }

    return 0;
}

static int TryShocks(Arguments.TryShocks asked)
{
    var results = TrialRun.Of(asked.Plan, asked.Shocks, Progress(asked.Plan));
    Console.Out.Write(ShockReport.Of(asked.Plan, asked.Shocks, results));
    return 0;
}

static Action<int> Progress(TrialPlan plan) =>
    done => Console.Error.WriteLine(FormattableString.Invariant($"{done} of {plan.Shops} shops"));

static int Refuse(string why)
{
    Console.Error.WriteLine(why);
    return 2;
}
