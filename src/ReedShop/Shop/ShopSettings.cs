using System.Text.Json.Serialization;
using ReedShop.Planning;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Shop;

/// <summary>A date on which the bench keeps other hours than the week says: none at all, or more.</summary>
/// <param name="SendsParcels">
/// On a day without hours: parcels leave all the same, as they can on the morning of a concert. They do on any with hours.
/// </param>
public sealed record OtherDay(
    DateOnly Date,
    IReadOnlyList<OpenHours> Hours,
    string? Reason = null,
    bool SendsParcels = false
)
{
    /// <summary>Closed, and no parcel leaves.</summary>
    [JsonIgnore]
    public bool IsHoliday => Hours.Count == 0 && !SendsParcels;

    public bool IsSame(OtherDay other) =>
        Date == other.Date
        && Hours.SequenceEqual(other.Hours)
        && Reason == other.Reason
        && IsHoliday == other.IsHoliday;
}

/// <summary>How finely finished reeds are sorted.</summary>
public enum GradeSteps
{
    /// <summary>Into half steps, as they are sold.</summary>
    Half,

    /// <summary>Into quarter steps: fewer reeds land on the strength that was ordered.</summary>
    Quarter,
}

/// <summary>
/// What making reeds costs, in minor units of the shop's currency: what the cheapest size of a batch is judged by. The
/// usual figures are our own guess, for the maker to put right.
/// </summary>
/// <param name="Blank">The cane of one blank.</param>
/// <param name="BenchHour">An hour at the bench.</param>
/// <param name="LateDay">One more day that an order is late.</param>
/// <param name="SurplusShare">The part of its price that one reed too many is worth in the drawer, 0 to 1.</param>
public sealed record ShopCosts(long Blank = 80, long BenchHour = 1500, long LateDay = 1000, double SurplusShare = 0.3)
{
    public static ShopCosts Usual { get; } = new();
}

/// <summary>The one workshop: where it is, when its bench is open, and how it promises.</summary>
public sealed class ShopSettings
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    public required string Name { get; set; }

    /// <summary>Name of a zone in the tz database.</summary>
    public required string Zone { get; set; }

    /// <summary>ISO 4217 code; all prices are in its minor unit.</summary>
    public required string Currency { get; set; }

    public required string OwnerEmail { get; set; }

    public required Dictionary<DayOfWeek, IReadOnlyList<OpenHours>> Hours { get; set; }

    public required IReadOnlyList<OtherDay> OtherDays { get; set; }

    /// <summary>Whom the plan may give sittings to beside the maker, in an order that the plan counts by.</summary>
    public IReadOnlyList<Helper> Helpers { get; set; } = [];

    public required IReadOnlyList<DayOfWeek> ShipDays { get; set; }

    public int RackBlanks { get; set; }

    public RackCharge RackCharge { get; set; }

    /// <summary>A need for more blanks than this is met by several batches.</summary>
    public int MostBlanksPerBatch { get; set; }

    /// <summary>The chance asked of a promise when the buyer asks for none.</summary>
    public double Confidence { get; set; }

    /// <summary>How often a night leaves the blanks damp, so that one more is needed.</summary>
    public double DampNightChance { get; set; }

    /// <summary>How often an evening with planned work sees none of it, and as often only a part.</summary>
    public double LostEveningChance { get; set; }

    /// <summary>The maker is told of a promise whose chance falls below this, if more was told with it.</summary>
    public double WatchBelow { get; set; }

    /// <summary>How often a reed a quarter step too soft comes up to strength when its tip is clipped.</summary>
    public double ClipChance { get; set; }

    /// <summary>Local time of the morning reminder.</summary>
    public TimeOnly ReminderAt { get; set; }

    public bool Selling { get; set; }

    public LengthUnit LengthUnit { get; set; }

    /// <summary>A batch this many days old counts half as much in the yields.</summary>
    public int YieldHalfLifeDays { get; set; }

    /// <summary>A batch older than a marker counts this part of what it would, for every marker since.</summary>
    public double BeforeMarker { get; set; }

    public GradeSteps GradeSteps { get; set; }

    public int QuartersBetweenGrades => GradeSteps == GradeSteps.Half ? 2 : 1;

    public ShopCosts Costs { get; set; } = ShopCosts.Usual;

    public PaymentTerms Payment { get; set; } = PaymentTerms.Usual;

    public ShippingTerms Shipping { get; set; } = ShippingTerms.None;

    /// <summary>The chance that the shelf lasts until more blanks are prepared.</summary>
    public double ShelfService { get; set; }

    public int Version { get; set; }

    public BenchCalendar Bench => new(Hours, OtherDays.ToDictionary(other => other.Date, other => other.Hours));

    /// <summary>The minutes of everybody at the bench.</summary>
    public int OpenMinutes(DateOnly day) => Bench.OpenMinutes(day) + Helpers.Sum(h => h.Bench.OpenMinutes(day));

    /// <summary>Of the maker, and of each helper.</summary>
    public IReadOnlyList<BenchCalendar> Calendars() => [Bench, .. Helpers.Select(helper => helper.Bench)];

    public ShipCalendar Ships =>
        new(ShipDays.ToHashSet(), OtherDays.Where(other => other.IsHoliday).Select(other => other.Date).ToHashSet());
}
