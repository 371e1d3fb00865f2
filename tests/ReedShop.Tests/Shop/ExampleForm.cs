namespace ReedShop.Tests.Shop;

/// <summary>The form of the settings page, filled in.</summary>
internal static class ExampleForm
{
    private static readonly (string Name, string Value)[] Usual =
    [
        ("name", "Harbour reeds"),
        ("email", "maker@example.org"),
        ("zone", "Europe/Lisbon"),
        ("currency", "EUR"),
        ("Monday", "19:00-21:00"),
        ("shipDays", "Monday"),
        ("rackBlanks", "60"),
        ("mostBlanksPerBatch", "24"),
        ("dampNightChance", "10"),
        ("lostEveningChance", "5"),
        ("watchBelow", "75"),
        ("clipChance", "60"),
        ("confidence", "90"),
        ("yieldHalfLifeDays", "365"),
        ("reminderAt", "7:00"),
        ("beforeMarker", "25"),
        ("shelfService", "90"),
        ("blankCost", "0.80"),
        ("benchHourCost", "15"),
        ("lateDayCost", "10"),
        ("surplusShare", "30"),
    ];

    /// <summary>The usual fields with these added, or typed instead.</summary>
    public static IEnumerable<(string Name, string Value)> With(params (string Name, string Value)[] typed) =>
        Usual.ExceptBy(typed.Select(field => field.Name), field => field.Name).Concat(typed);
}
