namespace ReedShop.Workshop;

/// <summary>Shown wherever the work is listed. Common practice, no source; local codes and licensed practice come first.</summary>
public static class Cautions
{
    /// <summary>Belongs to drying, so it is shown with what is said of it.</summary>
    public const string StillDamp =
        "Look for mould on blanks that are still damp after two nights: wear a mask, and throw away anything that has it.";

    public static IReadOnlyList<string> All { get; } =
    [
        "Cane and sanding dust: work with extraction and a fitted mask, and follow local workplace rules.",
        "Blades, planes and clippers: cut away from the hand, keep a first-aid kit within reach.",
        "Soaking and play-testing: fresh drinking water each day, clean dishes; throw away anything with mould.",
    ];
}
