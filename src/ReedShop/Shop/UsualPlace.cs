using System.Globalization;
using NodaTime.TimeZones;
using ReedShop.Planning;

namespace ReedShop.Shop;

/// <summary>What is usual where a shop lies: its money and what its gauges read. A guess, for the maker to put right.</summary>
public static class UsualPlace
{
    private const string UsualCurrency = "EUR";

    private static readonly Dictionary<string, RegionInfo> Regions = (
        TzdbDateTimeZoneSource.Default.ZoneLocations ?? []
    )
        .Select(place => (place.ZoneId, Region: Region(place.CountryCode)))
        .Where(place => place.Region is not null)
        .ToDictionary(place => place.ZoneId, place => place.Region!, StringComparer.Ordinal);

    public static string CurrencyOf(string? zone) => Find(zone)?.ISOCurrencySymbol ?? UsualCurrency;

    public static LengthUnit UnitOf(string? zone) =>
        Find(zone)?.IsMetric == false ? LengthUnit.Inch : LengthUnit.Millimetre;

    private static RegionInfo? Find(string? zone) => zone is null ? null : Regions.GetValueOrDefault(zone);

    /// <summary>Null where the country is too small for the tables of the runtime.</summary>
    private static RegionInfo? Region(string country)
    {
        try
        {
            return new RegionInfo(country) is { ISOCurrencySymbol.Length: 3 } region ? region : null;
        }
        catch (ArgumentException)
        {
            return null;
        }
    }
}
