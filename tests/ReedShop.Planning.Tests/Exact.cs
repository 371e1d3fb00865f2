using System.Numerics;

namespace ReedShop.Planning.Tests;

/// <summary>A whole fraction, for checks computed without rounding and without the code under test.</summary>
internal readonly record struct Exact(BigInteger Above, BigInteger Below)
{
    public static implicit operator Exact(int whole) => new(whole, 1);

    public static explicit operator double(Exact exact)
    {
        // Numbers too long for a double are brought within reach first; 60 bits stay.
        var shift = Math.Max(0, (int)BigInteger.Max(exact.Above, exact.Below).GetBitLength() - 1000);
        return (double)(exact.Above >> shift) / (double)(exact.Below >> shift);
    }

    public static Exact operator +(Exact left, Exact right) =>
        Of((left.Above * right.Below) + (right.Above * left.Below), left.Below * right.Below);

    public static Exact operator *(Exact left, Exact right) => Of(left.Above * right.Above, left.Below * right.Below);

    public static Exact operator /(Exact left, Exact right) => Of(left.Above * right.Below, left.Below * right.Above);

    public static Exact Of(BigInteger above, BigInteger below)
    {
        var common = BigInteger.GreatestCommonDivisor(above, below);
        return common.IsZero ? new(0, 1) : new(above / common, below / common);
    }

    public static Exact Sum(IEnumerable<Exact> terms) => terms.Aggregate((Exact)0, (sum, term) => sum + term);

    /// <summary>Probability of k survivors of n whose common chance has a beta law with whole parameters.</summary>
    public static Exact BetaBinomial(int k, int n, int alpha, int beta) =>
        Of(Choose(n, k) * Rising(alpha, k) * Rising(beta, n - k), Rising(alpha + beta, n));

    public static Exact Binomial(int k, int n, Exact chance) =>
        Choose(n, k) * Power(chance, k) * Power(Of(chance.Below - chance.Above, chance.Below), n - k);

    public static Exact operator *(BigInteger left, Exact right) => Of(left * right.Above, right.Below);

    private static Exact Power(Exact chance, int power) =>
        new(BigInteger.Pow(chance.Above, power), BigInteger.Pow(chance.Below, power));

    private static BigInteger Choose(int n, int k) => Rising(n - k + 1, k) / Rising(1, k);

    private static BigInteger Rising(int from, int factors) =>
        Enumerable.Range(from, factors).Aggregate(BigInteger.One, (product, factor) => product * factor);
}
