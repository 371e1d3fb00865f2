namespace ReedShop.Planning.Scheduling;

/// <summary>Temperatures, in units of cost, between which a search cools by equal factors.</summary>
internal readonly record struct Cooling(double Hot, double Cold)
{
    public double At(double share) => Hot * Math.Pow(Cold / Hot, share);
}
