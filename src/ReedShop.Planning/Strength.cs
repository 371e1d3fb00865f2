using System.Globalization;

namespace ReedShop.Planning;

/// <summary>
/// Stiffness grade of a finished reed, kept in quarter steps: 3½ is 14 quarters.
/// Reeds are sold in half steps and graded in quarters. Not standardised between makers.
/// </summary>
public readonly record struct Strength : IComparable<Strength>
{
    public const int LeastQuarters = 4;
    public const int MostQuarters = 24;

    /// <summary>What a text must look like, for refusals.</summary>
    public const string Allowed = "a strength from 1 to 6 in quarter steps, such as 3, 3.25 or 3.5";

    private static readonly string[] Fractions = ["", "¼", "½", "¾"];

    private Strength(int quarters) => Quarters = quarters;

    public int Quarters { get; }

    public decimal Value => Quarters / 4m;

    public static Strength OfQuarters(int quarters) =>
        quarters is >= LeastQuarters and <= MostQuarters
            ? new Strength(quarters)
            : throw new ArgumentOutOfRangeException(nameof(quarters), quarters, Allowed);

    public static bool TryFrom(decimal value, out Strength strength)
    {
        var quarters = value * 4;
        var fits = quarters == decimal.Truncate(quarters) && quarters is >= LeastQuarters and <= MostQuarters;
        strength = fits ? new Strength((int)quarters) : default;
        return fits;
    }

    /// <summary>Reads "3.5" or "3½".</summary>
    public static bool TryParse(string? text, out Strength strength)
    {
        strength = default;
        var plain = (text ?? "").Trim();
        var fraction = Array.FindIndex(Fractions, 1, f => plain.EndsWith(f, StringComparison.Ordinal));
        if (fraction > 0)
        {
            plain = plain[..^1].Trim() + (fraction * 0.25m).ToString(CultureInfo.InvariantCulture)[1..];
        }

        return decimal.TryParse(plain, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            && TryFrom(value, out strength);
    }

    /// <summary>The strength a number of quarter steps away, or none where the scale ends.</summary>
    public Strength? QuartersAway(int quarters)
    {
        var away = Quarters + quarters;
        return away is >= LeastQuarters and <= MostQuarters ? new Strength(away) : null;
    }

    public int CompareTo(Strength other) => Quarters.CompareTo(other.Quarters);

    public static bool operator <(Strength left, Strength right) => left.Quarters < right.Quarters;

    public static bool operator >(Strength left, Strength right) => left.Quarters > right.Quarters;

    public static bool operator <=(Strength left, Strength right) => left.Quarters <= right.Quarters;

    public static bool operator >=(Strength left, Strength right) => left.Quarters >= right.Quarters;

    /// <summary>As a player writes it: 3, 3¼, 3½.</summary>
    public override string ToString() =>
        (Quarters / 4).ToString(CultureInfo.InvariantCulture) + Fractions[Quarters % 4];
}
