using ReedShop.Planning.Bench;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Accounts;

/// <summary>What the first-run page asks for.</summary>
public sealed class FirstRunForm
{
    private const int UsualRackBlanks = 60;

    public string? Code { get; set; }

    public string? Password { get; set; }

    public string? Name { get; set; }

    public string? Email { get; set; }

    public string? Zone { get; set; } = HereZone;

    public string? Currency { get; set; } = UsualPlace.CurrencyOf(HereZone);

    private static string HereZone => ShopClock.Zones.GetZoneOrNull(TimeZoneInfo.Local.Id)?.Id ?? "Etc/UTC";

    /// <summary>Settings to begin with: evenings, Saturday mornings, parcels twice a week.</summary>
    public ShopView Shop()
    {
        OpenHours evening = new(new TimeOnly(19, 0), new TimeOnly(21, 0));
        OpenHours saturday = new(new TimeOnly(9, 0), new TimeOnly(14, 0));
        return new ShopView(
            Name ?? "",
            Zone ?? "",
            Currency ?? "",
            Email ?? "",
            new Dictionary<DayOfWeek, IReadOnlyList<OpenHours>>
            {
                [DayOfWeek.Monday] = [evening],
                [DayOfWeek.Tuesday] = [evening],
                [DayOfWeek.Wednesday] = [evening],
                [DayOfWeek.Thursday] = [evening],
                [DayOfWeek.Friday] = [evening],
                [DayOfWeek.Saturday] = [saturday],
            },
            [],
            [DayOfWeek.Monday, DayOfWeek.Thursday],
            UsualRackBlanks,
            LengthUnit: UsualPlace.UnitOf(Zone)
        );
    }
}
