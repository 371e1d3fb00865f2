namespace ReedShop.Tests;

/// <summary>An invented workshop: evenings on weekdays, Saturday mornings, parcels on Mondays and Thursdays.</summary>
public static class ExampleShop
{
    public static object Settings => SettingsIn("Europe/Lisbon");

    public static object SettingsIn(string zone, string reminderAt = "07:00") =>
        new
        {
            name = "Harbour reeds",
            zone,
            currency = "EUR",
            email = "maker@example.org",
            hours = new Dictionary<string, object>
            {
                ["monday"] = Evening,
                ["tuesday"] = Evening,
                ["wednesday"] = Evening,
                ["thursday"] = Evening,
                ["friday"] = Evening,
                ["saturday"] = new[] { new { from = "09:00", to = "14:00" } },
            },
            otherDays = Array.Empty<object>(),
            shipDays = new[] { "monday", "thursday" },
            rackBlanks = 60,
            reminderAt,
        };

    private static object Evening => new[] { new { from = "19:00", to = "21:00" } };
}
