using System.Text.Json;
using System.Text.Json.Nodes;

namespace ReedShop.Tests;

/// <summary>An invented workshop: evenings on weekdays, Saturday mornings, parcels on Mondays and Thursdays.</summary>
public static class ExampleShop
{
    public static object Settings => SettingsIn("Europe/Lisbon");

    /// <summary>A model whose blanks are soaked and flattened on one evening and finished on the next.</summary>
    public static object Clarinet =>
        new
        {
            name = "B-flat clarinet",
            instrument = "clarinet",
            cut = "French",
            strengths = new[] { 3m, 3.5m },
            price = new { amount = 2000, currency = "EUR" },
            route = new[]
            {
                new
                {
                    name = "finishing",
                    endsOnShelf = false,
                    steps = new object[]
                    {
                        new
                        {
                            name = "soak",
                            setUp = "bowl",
                            setUpMinutes = 5,
                            secondsPerBlank = 0,
                            soakMinutes = 20,
                        },
                        new
                        {
                            name = "flatten",
                            setUp = "glass 400",
                            setUpMinutes = 5,
                            secondsPerBlank = 120,
                            dry = new { nights = 1, leastHours = 12 },
                            check = "counted",
                            caution = "Dust: wear the mask.",
                        },
                        new
                        {
                            name = "grade",
                            setUp = "play-in",
                            setUpMinutes = 5,
                            secondsPerBlank = 180,
                            check = "graded",
                        },
                    },
                },
            },
        };

    public static object Cane =>
        new
        {
            lot = "2025 A",
            model = "clarinet",
            supplier = "A grower",
            harvest = 2023,
            seasonedFrom = "2025-01-01",
            blanks = 200,
        };

    /// <summary>A batch for the drawer, with a model and cane to cut it from; its soaking and flattening fit one evening.</summary>
    public static async Task<string> StartTenBlanks(ShopHost shop)
    {
        await shop.PutJson("/api/models/clarinet", Clarinet);
        await shop.PostJson("/api/cane", Cane);
        var batch = await shop.PostJson(
            "/api/batches",
            new
            {
                model = "clarinet",
                blanks = 10,
                aim = 3.5,
            }
        );
        return batch.GetProperty("id").GetString()!;
    }

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
                ["saturday"] = Morning,
            },
            otherDays = Array.Empty<object>(),
            shipDays = new[] { "monday", "thursday" },
            rackBlanks = 60,
            lostEveningChance = 0,
            reminderAt,
        };

    /// <summary>The settings with helpers.</summary>
    public static JsonNode With(params object[] helpers)
    {
        var settings = JsonSerializer.SerializeToNode(Settings)!;
        settings["helpers"] = JsonSerializer.SerializeToNode(helpers);
        return settings;
    }

    /// <summary>A helper on Mondays, one of which is lost to an exam.</summary>
    public static object Helper(string name, string from = "17:00", string to = "19:00") =>
        new
        {
            name,
            hours = new { monday = new[] { new { from, to } } },
            otherDays = new[]
            {
                new
                {
                    date = "2027-03-08",
                    hours = Array.Empty<object>(),
                    reason = "exam",
                },
            },
        };

    /// <summary>The same with the bench open every day, Sundays too.</summary>
    public static object OpenDailyIn(string zone, string reminderAt) =>
        new
        {
            name = "Harbour reeds",
            zone,
            currency = "EUR",
            email = "maker@example.org",
            hours = Enum.GetNames<DayOfWeek>().ToDictionary(day => day.ToLowerInvariant(), _ => Evening),
            otherDays = Array.Empty<object>(),
            shipDays = new[] { "monday" },
            rackBlanks = 60,
            lostEveningChance = 0,
            reminderAt,
        };

    private static object Evening => new[] { new { from = "19:00", to = "21:00" } };

    private static object Morning => new[] { new { from = "09:00", to = "14:00" } };
}
