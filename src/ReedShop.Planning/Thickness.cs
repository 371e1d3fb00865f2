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

    public override string ToString() =>
        Unit == LengthUnit.Millimetre
            ? FormattableString.Invariant($"{Count / 100m:0.00} mm")
            : FormattableString.Invariant($"{Count / 1000m:0.000} in");
}
