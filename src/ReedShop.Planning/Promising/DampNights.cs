namespace ReedShop.Planning.Promising;

/// <summary>
/// The stated allowance for damp nights. Every night a route needs is repeated until one leaves the blanks dry, each
/// damp with the same chance, so the nights added are negative binomial.
/// </summary>
public static class DampNights
{
    /// <summary>
    /// Chance that no more than <paramref name="spare"/> nights are added to <paramref name="nights"/> needed:
    /// the sum over x up to spare of C(nights + x - 1, x) (1 - damp)^nights damp^x.
    /// </summary>
    public static double ChanceWithin(int nights, int spare, double damp)
    {
        if (nights == 0)
        {
            return 1;
        }

        var term = Math.Pow(1 - damp, nights);
        var sum = term;
        for (var added = 1; added <= spare; added++)
        {
            term *= damp * (nights + added - 1) / added;
            sum += term;
        }

        return Math.Min(1, sum);
    }
}
