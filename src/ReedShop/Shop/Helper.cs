using System.Text.Json.Serialization;
using ReedShop.Planning.Bench;

namespace ReedShop.Shop;

/// <summary>A second person at the bench, with hours of their own.</summary>
public sealed record Helper(
    string Name,
    IReadOnlyDictionary<DayOfWeek, IReadOnlyList<OpenHours>> Hours,
    IReadOnlyList<OtherDay> OtherDays
)
{
    public const int Most = 3;

    public const int MostNameCharacters = 60;

    [JsonIgnore]
    public BenchCalendar Bench => new(Hours, OtherDays.ToDictionary(other => other.Date, other => other.Hours));
}
