using ReedShop.Planning;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Scheduling;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>The settings as the API reads and writes them. Hours are local clock times such as "18:30".</summary>
public sealed record ShopView(
    string Name,
    string Zone,
    string Currency,
    string Email,
    IReadOnlyDictionary<DayOfWeek, IReadOnlyList<OpenHours>> Hours,
    IReadOnlyList<OtherDay> OtherDays,
    IReadOnlyList<DayOfWeek> ShipDays,
    int RackBlanks,
    RackCharge RackCharge = RackCharge.WholeStay,
    double Confidence = ShopView.UsualConfidence,
    double DampNightChance = 0.1,
    TimeOnly? ReminderAt = null,
    bool Selling = true,
    LengthUnit LengthUnit = LengthUnit.Millimetre,
    int YieldHalfLifeDays = 365,
    int MostBlanksPerBatch = 24,
    GradeSteps GradeSteps = GradeSteps.Half,
    double BeforeMarker = 0.25,
    ShopCosts? Costs = null,
    double ShelfService = 0.9,
    IReadOnlyList<Helper>? Helpers = null,
    double LostEveningChance = 0.05,
    double WatchBelow = 0.75,
    double ClipChance = 0.6,
    PaymentTerms? Payment = null,
    ShippingTerms? Shipping = null
)
{
    public const double UsualConfidence = 0.9;
    public const double LeastConfidence = 0.5;
    public const double MostConfidence = 0.99;

    private const long MostCost = 1_000_000;

    private static readonly TimeOnly UsualReminder = new(7, 0);

    public static ShopView Of(ShopSettings shop) =>
        new(
            shop.Name,
            shop.Zone,
            shop.Currency,
            shop.OwnerEmail,
            shop.Hours,
            shop.OtherDays,
            shop.ShipDays,
            shop.RackBlanks,
            shop.RackCharge,
            shop.Confidence,
            shop.DampNightChance,
            shop.ReminderAt,
            shop.Selling,
            shop.LengthUnit,
            shop.YieldHalfLifeDays,
            shop.MostBlanksPerBatch,
            shop.GradeSteps,
            shop.BeforeMarker,
            shop.Costs,
            shop.ShelfService,
            shop.Helpers,
            shop.LostEveningChance,
            shop.WatchBelow,
            shop.ClipChance,
            shop.Payment,
            shop.Shipping
        );

    /// <summary>The first thing that is wrong with these settings, or null.</summary>
    public Refusal? Fault() =>
        new Refusal?[]
        {
            When(string.IsNullOrWhiteSpace(Name) || Name.Length > 100, "name", "a name of 1 to 100 characters"),
            When(ShopClock.Zones.GetZoneOrNull(Zone) is null, "zone", "a time zone such as Europe/Lisbon"),
            When(!Money.IsInUse(Currency), "currency", "the three capital letters of a currency in use, such as EUR"),
            When(!EmailAddress.IsUsable(Email), "email", EmailAddress.Allowed),
            When(!Hours.Values.All(AreInOrder), "hours", "stretches that end after they start and follow one another"),
            When(!OtherDays.All(day => AreInOrder(day.Hours)), "otherDays", "stretches that end after they start"),
            When(
                OtherDays.DistinctBy(day => day.Date).Count() != OtherDays.Count,
                "otherDays",
                "each date at most once"
            ),
            When(
                ShipDays.Count == 0,
                "shipDays",
                Words.Named("at least one weekday", "at least one weekday, such as [\"monday\", \"thursday\"]")
            ),
            When(RackBlanks is < 1 or > 10_000, "rackBlanks", "1 to 10000 blanks"),
            When(
                Confidence is not (>= LeastConfidence and <= MostConfidence),
                "confidence",
                Chance(LeastConfidence, MostConfidence)
            ),
            When(DampNightChance is not (>= 0 and <= 0.5), "dampNightChance", Chance(0, 0.5)),
            When(LostEveningChance is not (>= 0 and <= 0.5), "lostEveningChance", Chance(0, 0.5)),
            When(WatchBelow is not (>= 0 and <= MostConfidence), "watchBelow", Chance(0, MostConfidence)),
            When(ClipChance is not (>= 0 and <= 1), "clipChance", Chance(0, 1)),
            When(
                MostBlanksPerBatch < 1 || MostBlanksPerBatch > RackBlanks,
                "mostBlanksPerBatch",
                Words.Named($"1 to {RackBlanks}, what the rack holds", "1 to what the rack holds")
            ),
            When(YieldHalfLifeDays is < 30 or > 3650, "yieldHalfLifeDays", "30 to 3650 days"),
            When(
                BeforeMarker is not (>= 0 and <= 1),
                "beforeMarker",
                Words.Named("0 to 100 in 100", "a share from 0 to 1")
            ),
            When(
                Costs is { } costs && !IsUsable(costs),
                "costs",
                Words.Named(
                    $"amounts from 0 to {new Money(MostCost, Currency)}, a share from 0 to 100 in 100",
                    "amounts of 0 to 1000000, a share from 0 to 1"
                )
            ),
            When(
                Payment is { IsUsable: false },
                "payment",
                "a deposit share from 0.1 to 1, a kept share and a tax share from 0 to 1, a tax name of up to 40 and a note of up to 500 characters"
            ),
            Shipping?.Fault(Currency, (zone, part) => FormattableString.Invariant($"shipping.zones[{zone}].{part}")),
            When(
                ShelfService is not (>= LeastConfidence and <= MostConfidence),
                "shelfService",
                Chance(LeastConfidence, MostConfidence)
            ),
            HelpersFault(Helpers ?? []),
        }.FirstOrDefault(refusal => refusal is not null);

    public ShopSettings ToSettings()
    {
        var settings = new ShopSettings
        {
            Name = "",
            Zone = "",
            Currency = "",
            OwnerEmail = "",
            Hours = [],
            OtherDays = [],
            ShipDays = [],
        };
        ApplyTo(settings);
        return settings;
    }

    public void ApplyTo(ShopSettings shop)
    {
        shop.Name = Name.Trim();
        shop.Zone = Zone;
        shop.Currency = Currency;
        shop.OwnerEmail = Email.Trim();
        shop.Hours = Hours.ToDictionary();
        shop.OtherDays = [.. OtherDays.OrderBy(day => day.Date)];
        shop.ShipDays = [.. ShipDays.Distinct().Order()];
        shop.RackBlanks = RackBlanks;
        shop.RackCharge = RackCharge;
        shop.Confidence = Confidence;
        shop.DampNightChance = DampNightChance;
        shop.LostEveningChance = LostEveningChance;
        shop.WatchBelow = WatchBelow;
        shop.ClipChance = ClipChance;
        shop.ReminderAt = ReminderAt ?? UsualReminder;
        shop.Selling = Selling;
        shop.LengthUnit = LengthUnit;
        shop.YieldHalfLifeDays = YieldHalfLifeDays;
        shop.MostBlanksPerBatch = MostBlanksPerBatch;
        shop.GradeSteps = GradeSteps;
        shop.BeforeMarker = BeforeMarker;
        shop.Costs = Costs ?? ShopCosts.Usual;
        // Scripts written before there were terms of payment or of shipping leave them as they are.
        shop.Payment = Payment ?? shop.Payment;
        shop.Shipping = Shipping?.Tidy() ?? shop.Shipping;
        shop.ShelfService = ShelfService;
        shop.Helpers = [.. (Helpers ?? []).Select(Tidy)];
        shop.Version++;
    }

    private static Refusal? When(bool wrong, string field, string allowed) =>
        wrong
            ? Refusal.Invalid(
                field,
                Words.Named("This cannot be used.", $"The shop's {field} cannot be used."),
                allowed
            )
            : null;

    private static string Chance(double least, double most) =>
        Words.Named(
            $"{Words.InHundred(least)} to {Words.InHundred(most)} in 100",
            FormattableString.Invariant($"a chance from {least} to {most}")
        );

    private static Refusal? HelpersFault(IReadOnlyList<Helper> helpers) =>
        When(helpers.Count > Helper.Most, "helpers", $"at most {Helper.Most}")
        ?? When(
            helpers.Any(h => string.IsNullOrWhiteSpace(h.Name) || h.Name.Length > Helper.MostNameCharacters),
            "helpers",
            $"a name of 1 to {Helper.MostNameCharacters} characters for each"
        )
        ?? When(
            helpers.DistinctBy(h => h.Name.Trim(), StringComparer.OrdinalIgnoreCase).Count() != helpers.Count,
            "helpers",
            "another name for each"
        )
        ?? When(
            !helpers.SelectMany(h => h.Hours.Values.Concat(h.OtherDays.Select(day => day.Hours))).All(AreInOrder),
            "helpers",
            "stretches that end after they start and follow one another"
        )
        ?? When(
            helpers.Any(h => h.OtherDays.DistinctBy(day => day.Date).Count() != h.OtherDays.Count),
            "helpers",
            "each of their other days at most once"
        );

    private static Helper Tidy(Helper helper) =>
        helper with
        {
            Name = helper.Name.Trim(),
            OtherDays = [.. helper.OtherDays.OrderBy(day => day.Date)],
        };

    private static bool IsUsable(ShopCosts costs) =>
        new[] { costs.Blank, costs.BenchHour, costs.LateDay }.All(amount => amount is >= 0 and <= MostCost)
        && costs.SurplusShare is >= 0 and <= 1;

    /// <summary>Whether each stretch ends after it starts and before the next one does.</summary>
    internal static bool AreInOrder(IReadOnlyList<OpenHours> hours) =>
        hours.All(stretch => stretch.Minutes > 0)
        && hours.Zip(hours.Skip(1)).All(pair => pair.First.To <= pair.Second.From);
}
