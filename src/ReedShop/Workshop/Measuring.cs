using System.Globalization;
using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Planning.Routes;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>What a gauge read after a step, all in the unit it was read in, and how many are not as they should be.</summary>
/// <param name="Least">The thinnest that is wanted; missing where the route no longer measures.</param>
public sealed record MeasuredView(
    IReadOnlyList<decimal> Readings,
    LengthUnit Unit,
    decimal? Least,
    decimal? Most,
    int TooThin,
    int TooThick
)
{
    /// <summary>Null where nothing was measured.</summary>
    public static MeasuredView? Of(StepRecord record, Measure? measure) =>
        record.Measured is [{ Unit: var unit }, ..]
            ? new MeasuredView(
                [.. record.Measured.Select(reading => reading.Value)],
                unit,
                measure?.Thinnest.In(unit).Value,
                measure?.Thickest.In(unit).Value,
                measure is null ? 0 : record.Measured.Count(measure.IsTooThin),
                measure is null ? 0 : record.Measured.Count(measure.IsTooThick)
            )
            : null;
}

/// <summary>Readings of a gauge. Those outside the tolerance are kept and warned of: only the maker rejects a blank.</summary>
public static class Measuring
{
    public static IReadOnlyList<Thickness> Read(IReadOnlyList<decimal>? readings, LengthUnit unit) =>
        [.. (readings ?? []).Select(reading => Thickness.Of(reading, unit))];

    public static Refusal? Fault(Step step, IReadOnlyList<decimal>? readings, LengthUnit unit, int blanks) =>
        readings is null or [] ? null
        : step.Measure is null ? Refusal.Invalid("measured", $"Nothing is measured after {step.Name}.", "no readings")
        : readings.Count > blanks
            ? Refusal.Invalid("measured", "There are more readings than blanks.", $"up to {blanks} readings")
        : readings.Any(reading => !Thickness.IsUsable(reading, unit))
            ? Refusal.Invalid("measured", "A reading cannot be right.", "thicknesses such as 3.10")
        : null;

    /// <summary>"3.08 3.12" or "3,08; 3,12".</summary>
    public static Result<IReadOnlyList<decimal>> Parse(string text)
    {
        var readings = new List<decimal>();
        foreach (var part in text.Split([' ', ';', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (
                !decimal.TryParse(
                    part.Replace(',', '.'),
                    NumberStyles.AllowDecimalPoint,
                    CultureInfo.InvariantCulture,
                    out var reading
                )
            )
            {
                return Refusal.Invalid("measured", $"“{part}” is no thickness.", "readings such as 3.08 3.12 3.1");
            }

            readings.Add(reading);
        }

        return readings;
    }
}
