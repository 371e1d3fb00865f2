namespace ReedShop.Planning.Routes;

/// <summary>The thickness that blanks should have after a step, and how far off it they may be.</summary>
/// <param name="Tolerance">To either side, in the counts of the target's unit.</param>
public sealed record Measure(Thickness Target, int Tolerance)
{
    public Thickness Thinnest => Target with { Count = Target.Count - Tolerance };

    public Thickness Thickest => Target with { Count = Target.Count + Tolerance };

    public bool IsTooThin(Thickness reading) => reading.Millimetres < Thinnest.Millimetres;

    public bool IsTooThick(Thickness reading) => reading.Millimetres > Thickest.Millimetres;
}
