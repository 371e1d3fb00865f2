using System.Globalization;

namespace ReedShop.Lab.Trials;

/// <summary>Reads what trials are asked for: whole numbers, a file and switches.</summary>
internal static class TrialArguments
{
    /// <summary>Null with a sentence that says what is wrong.</summary>
    public static Arguments? Read(string[] words, out string refusal)
    {
        var plan = new TrialPlan(Shops: 200, Years: 2, Seed: 1, AlwaysAccepted: false);
        string? diagram = null;
        var isAlone = false;
        var shocks = new List<ShockKind>();
        refusal = "";
        for (var i = 0; i < words.Length; i++)
        {
            var value = words.ElementAtOrDefault(i + 1);
            switch (words[i])
            {
                case "--always":
                    plan = plan with { AlwaysAccepted = true };
                    continue;
                case "--alone":
                    isAlone = true;
                    continue;
                case "--without" when value is "evenings" or "damp":
                    plan = plan with { Hardship = plan.Hardship.Without(value) };
                    break;
                case "--shock" when Kind(value) is { } shock && !shocks.Contains(shock):
                    shocks.Add(shock);
                    break;
                case "--diagram" when value is not null:
                    diagram = value;
                    break;
                case "--shops" when Number(value) is { } shops:
                    plan = plan with { Shops = shops };
                    break;
                case "--years" when Number(value) is { } years:
                    plan = plan with { Years = years };
                    break;
                case "--minutes" when Number(value) is { } minutes:
                    plan = plan with { Longest = TimeSpan.FromMinutes(minutes) };
                    break;
                case "--seed" when Number(value) is { } seed:
                    plan = plan with { Seed = seed };
                    break;
                default:
                    refusal = $"{words[i]} is unknown or lacks its value.";
                    return null;
            }

            i++;
        }

        if (shocks.Count == 0)
        {
            return new Arguments.TryPromises(plan, isAlone, diagram);
        }

        refusal =
            plan.Years == 1 ? "--shock sets in after a year, and needs --years 2 or more."
            : diagram is not null ? "--diagram is not drawn of a --shock."
            : "";
        return refusal.Length > 0
            ? null
            : new Arguments.TryShocks(plan, [.. shocks.Select(kind => new Shock(kind, TrialPlan.YearDays))]);
    }

    private static ShockKind? Kind(string? text) =>
        text switch
        {
            "cane" => ShockKind.Cane,
            "demand" => ShockKind.Demand,
            "illness" => ShockKind.Illness,
            "told-illness" => ShockKind.ToldIllness,
            _ => null,
        };

    private static int? Number(string? text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0
            ? number
            : null;
}
