namespace ReedShop.Tests;

/// <summary>A clarinet model of the strength 3½ with a short route, each of whose steps takes five minutes to set up.</summary>
public static class ExampleModel
{
    public static object Of(params object[] steps) =>
        new
        {
            name = "B-flat clarinet",
            instrument = "clarinet",
            cut = "plain",
            strengths = new[] { 3.5 },
            price = new { amount = 350, currency = "EUR" },
            route = new[]
            {
                new
                {
                    name = "finishing",
                    endsOnShelf = false,
                    steps,
                },
            },
        };

    /// <param name="setUp">Of its own where none is named.</param>
    public static object Step(
        string name,
        int secondsPerBlank,
        string? setUp = null,
        int? soakMinutes = null,
        object? dry = null,
        int? mostPerDay = null,
        string check = "none",
        string? redoFrom = null
    ) =>
        new
        {
            name,
            setUp = setUp ?? name,
            setUpMinutes = 5,
            secondsPerBlank,
            soakMinutes,
            dry,
            mostPerDay,
            check,
            redoFrom,
        };

    /// <summary>Blanks dry for a night of so many hours at least, and lie for so many nights at most.</summary>
    public static object Night(int leastHours = 12, int? mostNights = null) =>
        new
        {
            nights = 1,
            leastHours,
            mostNights,
        };
}
