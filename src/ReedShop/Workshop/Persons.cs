using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>
/// Who does a sitting: the plan counts people, 0 the maker and 1 and up the helpers in order; rows keep names, so that
/// a helper who leaves never hands sittings to another. They are the maker's from then on.
/// </summary>
public static class Persons
{
    public static int NumberOf(ShopSettings shop, PlannedSitting sitting) =>
        1 + shop.Helpers.Select(helper => helper.Name).ToList().IndexOf(sitting.Helper ?? "");

    /// <summary>The helper's name; null for the maker.</summary>
    public static string? NameOf(ShopSettings shop, int number) => number == 0 ? null : shop.Helpers[number - 1].Name;

    /// <summary>The name of the helper whose sitting it is now; null where it is the maker's.</summary>
    public static string? NameOf(ShopSettings shop, PlannedSitting sitting) => NameOf(shop, NumberOf(shop, sitting));
}
