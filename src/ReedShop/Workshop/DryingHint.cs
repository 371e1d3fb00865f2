using System.Globalization;
using ReedShop.Planning.Bench;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>What a night in this air makes of the blanks: a hint, which no plan and no promise reads.</summary>
/// <param name="Celsius">Of the drying room.</param>
/// <param name="Humidity">Relative humidity of the drying room in percent.</param>
/// <param name="MoisturePercent">What wood would come to rest at in this air, in percent of its dry mass.</param>
/// <param name="Overnight">Whether this air suits "overnight".</param>
/// <param name="Says">The same in plain words.</param>
/// <param name="Notes">What the figure is worth, and what to look out for.</param>
public sealed record DryingHint(
    double Celsius,
    double Humidity,
    double MoisturePercent,
    DryingAir Overnight,
    string Says,
    IReadOnlyList<string> Notes
)
{
    /// <summary>A room that may hold wet blanks: above freezing, and within the handbook's table.</summary>
    private const double LeastCelsius = 0;

    private const double MostCelsius = 50;
    private const double LeastHumidity = 5;
    private const double MostHumidity = 95;

    private const string OnlyAHint =
        "This is computed for wood, which stands in for cane: a hint, never a rule. Where dry ends and damp begins is common practice, no source.";

    public static string AllowedCelsius { get; } =
        $"a temperature from {LeastCelsius} to {MostCelsius} °C, such as 20.5";

    public static string AllowedHumidity { get; } =
        $"a relative humidity from {LeastHumidity} to {MostHumidity} %, such as 55";

    public static Result<DryingHint> Of(double celsius, double humidity)
    {
        if (celsius is not (>= LeastCelsius and <= MostCelsius))
        {
            return Refusal.Invalid("celsius", "The temperature cannot be used.", AllowedCelsius);
        }

        if (humidity is not (>= LeastHumidity and <= MostHumidity))
        {
            return Refusal.Invalid("humidity", "The humidity cannot be used.", AllowedHumidity);
        }

        var moisture = WoodMoisture.EquilibriumPercent(celsius, humidity / 100);
        var air = DryingAirs.Of(celsius, moisture);
        return new DryingHint(
            celsius,
            humidity,
            Math.Round(moisture, 1),
            air,
            Words(air),
            [OnlyAHint, Cautions.StillDamp]
        );
    }

    private static string Words(DryingAir air) =>
        air switch
        {
            DryingAir.Dry => "Dry: one night should be enough.",
            DryingAir.Slow => "Slow: one night may not be enough. Feel the blanks before you go on.",
            DryingAir.Damp => "Damp: do not count on one night. Warm or air the room, or expect one night more.",
            _ => throw new ArgumentOutOfRangeException(nameof(air), air, "Air of its own kind needs words."),
        };
}

/// <summary>The question "Will tonight dry them?" as it was typed.</summary>
public sealed record DryingQuestion(string? Celsius = null, string? Humidity = null)
{
    public static DryingQuestion None { get; } = new();

    /// <summary>None where nothing was asked.</summary>
    public Result<DryingHint>? Answer =>
        string.IsNullOrWhiteSpace(Celsius) && string.IsNullOrWhiteSpace(Humidity) ? default(Result<DryingHint>?)
        : !IsNumber(Celsius, out var celsius)
            ? Refusal.Invalid("celsius", "How warm is the room?", DryingHint.AllowedCelsius)
        : !IsNumber(Humidity, out var humidity)
            ? Refusal.Invalid("humidity", "How humid is the room?", DryingHint.AllowedHumidity)
        : DryingHint.Of(celsius, humidity);

    /// <summary>Many a phone offers a comma only.</summary>
    private static bool IsNumber(string? text, out double number) =>
        double.TryParse(
            text?.Trim().Replace(',', '.'),
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out number
        );
}
