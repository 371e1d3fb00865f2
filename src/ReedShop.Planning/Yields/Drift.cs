namespace ReedShop.Planning.Yields;

/// <summary>Something that the last batches of a model did and that is improbable under what came before.</summary>
/// <param name="Batches">How many of the last batches were looked at.</param>
/// <param name="Before">How many batches stand behind what was expected of them.</param>
/// <param name="Chance">
/// How probable something as far off, to either side, would be anywhere in the shop had nothing changed.
/// </param>
public abstract record Drift(string Model, int Batches, int Before, double Chance)
{
    /// <summary>Too many or too few survive a step: of so many blanks, against the 90 % interval of what was expected.</summary>
    public sealed record OfStep(
        string Model,
        string Step,
        int Batches,
        int Before,
        int In,
        int Out,
        (int Low, int High) Expected,
        double Chance
    ) : Drift(Model, Batches, Before, Chance)
    {
        public override bool IsHigher => Out > Expected.High;
    }

    /// <summary>Reeds come out harder or softer: mean quarter steps harder than the aim, against the 90 % interval.</summary>
    public sealed record OfStrength(
        string Model,
        int Batches,
        int Before,
        int Reeds,
        double Quarters,
        (double Low, double High) Expected,
        double Chance
    ) : Drift(Model, Batches, Before, Chance)
    {
        public override bool IsHigher => Quarters > Expected.High;
    }

    /// <summary>More blanks survive, or reeds come out harder; fewer or softer otherwise.</summary>
    public abstract bool IsHigher { get; }
}
