using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>The days a week or a day list is shown for.</summary>
public static class ShownDays
{
    private const int Years = 20;

    public static Refusal? Fault(BenchFacts facts, DateOnly day)
    {
        var (first, last) = (facts.Today.AddYears(-Years), facts.Today.AddYears(Years));
        return day < first || day > last
            ? Refusal.Invalid("from", "No plan reaches so far.", $"{Words.DayToSend(first)} to {Words.DayToSend(last)}")
            : null;
    }
}
