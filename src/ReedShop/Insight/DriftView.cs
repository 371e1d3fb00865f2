using ReedShop.Planning.Yields;

namespace ReedShop.Insight;

/// <summary>The last batches of a model are improbable under what came before: a sign that something has changed.</summary>
/// <param name="Step">The step at which it shows; missing where the strength of the reeds does.</param>
/// <param name="Seen">Blanks kept, or mean quarter steps harder than the aim.</param>
/// <param name="Low">Lower end of what was to be expected, nine times in ten.</param>
/// <param name="Chance">Of something as far off anywhere in the shop had nothing changed.</param>
/// <param name="Says">All of it in a sentence.</param>
public sealed record DriftView(
    string? Step,
    int Batches,
    int Before,
    double Seen,
    double Low,
    double High,
    double Chance,
    string Says
)
{
    private const string Advice = "If something changed, such as a blade, a template or a paper, set a marker.";

    public static DriftView Of(Drift drift) =>
        drift switch
        {
            Drift.OfStep step => Of(step),
            Drift.OfStrength strength => Of(strength),
            _ => throw new ArgumentOutOfRangeException(nameof(drift), drift, "Steps and strengths are looked at."),
        };

    private static DriftView Of(Drift.OfStep drift) =>
        new(
            drift.Step,
            drift.Batches,
            drift.Before,
            drift.Out,
            drift.Expected.Low,
            drift.Expected.High,
            drift.Chance,
            FormattableString.Invariant(
                $"{drift.Step}: the last {drift.Batches} batches kept {drift.Out} of {drift.In} blanks; after the {drift.Before} batches before them, {drift.Expected.Low} to {drift.Expected.High} were to be expected. {Advice}"
            )
        );

    private static DriftView Of(Drift.OfStrength drift) =>
        new(
            null,
            drift.Batches,
            drift.Before,
            drift.Quarters,
            drift.Expected.Low,
            drift.Expected.High,
            drift.Chance,
            FormattableString.Invariant(
                $"The reeds of the last {drift.Batches} batches came out {Quarters(drift.Quarters)} than their aims; after the {drift.Before} batches before them, {Quarters(drift.Expected.Low)} to {Quarters(drift.Expected.High)} was to be expected. {Advice}"
            )
        );

    private static string Quarters(double quarters) =>
        FormattableString.Invariant($"{Math.Abs(quarters):0.0} quarter steps {(quarters < 0 ? "softer" : "harder")}");
}
