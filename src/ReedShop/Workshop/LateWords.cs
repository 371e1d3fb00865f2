using ReedShop.Planning.Forecasting;

namespace ReedShop.Workshop;

/// <summary>Causes of lateness in the words of the bench.</summary>
public static class LateWords
{
    public static string Of(LateCause cause) =>
        cause switch
        {
            LateCause.Short => "too few reeds of the strength",
            LateCause.Cane => "want of cane",
            LateCause.DampNights => "damp nights",
            _ => "lost or too few evenings",
        };
}
