using System.Globalization;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Catalogue;

/// <summary>What is measured after the steps of a model, as the maker types it: all in the unit of the shop's gauge.</summary>
public static class MeasureForm
{
    public static string TargetOf(int step) => $"target-{Words.Plain(step)}";

    public static string ToleranceOf(int step) => $"tolerance-{Words.Plain(step)}";

    /// <summary>The thickness wanted and how far it may be off, as fields show them; empty where nothing is measured.</summary>
    public static (string Target, string Tolerance) Text(MeasureShape? measure, LengthUnit unit) =>
        measure is null
            ? ("", "")
            : (
                Thickness.Of(measure.Target, measure.Unit).In(unit).Figure,
                Thickness.Of(measure.Tolerance, measure.Unit).In(unit).Figure
            );

    /// <summary>The route with the measures that were typed; steps count over all legs from 1.</summary>
    public static Result<IReadOnlyList<LegShape>> Read(IFormCollection form, ReedModel model, LengthUnit unit)
    {
        var number = 0;
        var legs = new List<LegShape>();
        foreach (var leg in RouteShape.Of(model.Route))
        {
            var steps = new List<StepShape>();
            foreach (var step in leg.Steps)
            {
                var measure = Measure(form, ++number, step, unit);
                if (measure.Refusal is { } refusal)
                {
                    return refusal;
                }

                steps.Add(step with { Measure = measure.Value });
            }

            legs.Add(leg with { Steps = steps });
        }

        return legs;
    }

    private static Result<MeasureShape?> Measure(IFormCollection form, int number, StepShape step, LengthUnit unit)
    {
        var (target, tolerance) = (form.Text(TargetOf(number)), form.Text(ToleranceOf(number)));
        if (target.Length + tolerance.Length == 0)
        {
            return (MeasureShape?)null;
        }

        // What was not touched stays as it was read, in whichever unit: rounding it to and fro would move it.
        return (target, tolerance) == Text(step.Measure, unit) ? step.Measure
            : Figure(target) is not { } wanted || !Thickness.IsUsable(wanted, unit)
                ? Refused(TargetOf(number), step, target, unit)
            : Figure(tolerance) is not { } off || off >= wanted ? Refused(ToleranceOf(number), step, tolerance, unit)
            : new MeasureShape(wanted, off, unit);
    }

    private static Refusal Refused(string field, StepShape step, string text, LengthUnit unit) =>
        Refusal.Invalid(
            field,
            $"{step.Name}: “{text}” cannot be used.",
            unit == LengthUnit.Millimetre
                ? "a thickness in mm such as 3.05, and how far off it may be, such as 0.10; both empty where nothing is measured"
                : "a thickness in inches such as 0.120, and how far off it may be, such as 0.004; both empty where nothing is measured"
        );

    private static decimal? Figure(string text) =>
        decimal.TryParse(
            text.Replace(',', '.'),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var figure
        )
            ? figure
            : null;
}
