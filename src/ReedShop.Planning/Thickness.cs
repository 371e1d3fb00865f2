namespace ReedShop.Planning;

public enum LengthUnit
{
    /// <summary>Hundredths of a millimetre.</summary>
    Millimetre,

    /// <summary>Thousandths of an inch.</summary>
    Inch,
}

/// <summary>
/// A thickness as the maker's gauge reads it: whole hundredths of a millimetre or whole thousandths of an inch. The
/// reading keeps its unit; the two are never mixed, only compared through the exact inch.
/// </summary>
public readonly record struct Thickness(int Count, LengthUnit Unit)
{
    /// <summary>1 in = 25.4 mm exactly (NIST SP 811, appendix B), so a thousandth of an inch is 2.54 hundredths of a millimetre.</summary>
    public const decimal MillimetresPerInch = 25.4m;

    public decimal Millimetres => Unit == LengthUnit.Millimetre ? Count / 100m : Count / 1000m * MillimetresPerInch;

    /// <summary>In its own unit.</summary>
    public decimal Value => Count / CountsIn(Unit);

    /// <summary>No reed and no blank is thicker.</summary>
    public const decimal ThickestMillimetres = 50;

    /// <summary>Whether a figure can be the thickness of a blank.</summary>
    public static bool IsUsable(decimal value, LengthUnit unit) =>
        value is > 0 and <= ThickestMillimetres && Of(value, unit).Millimetres <= ThickestMillimetres;

    /// <summary>A figure in a unit, read to whole counts.</summary>
    public static Thickness Of(decimal value, LengthUnit unit) =>
        new((int)Math.Round(value * CountsIn(unit), MidpointRounding.AwayFromZero), unit);

    /// <summary>The same in another unit, to the nearest count.</summary>
    public Thickness In(LengthUnit unit) =>
        unit == Unit ? this : Of(unit == LengthUnit.Millimetre ? Millimetres : Millimetres / MillimetresPerInch, unit);

    public static string Sign(LengthUnit unit) => unit == LengthUnit.Millimetre ? "mm" : "in";

    /// <summary>The figure without its unit.</summary>
    public string Figure =>
        Unit == LengthUnit.Millimetre
            ? FormattableString.Invariant($"{Value:0.00}")
            : FormattableString.Invariant($"{Value:0.000}");

    public override string ToString() => $"{Figure} {Sign(Unit)}";

    private static decimal CountsIn(LengthUnit unit) => unit == LengthUnit.Millimetre ? 100m : 1000m;
}
