using System.Globalization;
using ReedShop.Planning;
using ReedShop.Planning.Bench;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>The settings as texts of a form, named as refusals name them, and back.</summary>
public sealed class ShopForm
{
    public const string ShipDays = "shipDays";

    /// <summary>Fields typed as a number in 100.</summary>
    private static readonly string[] InHundreds =
    [
        "confidence",
        "dampNightChance",
        "lostEveningChance",
        "watchBelow",
        "clipChance",
        "beforeMarker",
        "shelfService",
        "surplusShare",
    ];

    private readonly IReadOnlyDictionary<string, string> texts;

    private ShopForm(IReadOnlyDictionary<string, string> texts) => this.texts = texts;

    /// <summary>The week as it is lived: it begins on Monday.</summary>
    public static IReadOnlyList<DayOfWeek> Week { get; } =
    [.. Enum.GetValues<DayOfWeek>().OrderBy(day => day == DayOfWeek.Sunday).ThenBy(day => day)];

    /// <summary>What stands in a field; empty where nothing does.</summary>
    public string this[string name] => texts.GetValueOrDefault(name, "");

    /// <summary>A form as it was typed.</summary>
    public static ShopForm Typed(IFormCollection form) =>
        new(form.ToDictionary(field => field.Key, field => field.Value.ToString(), StringComparer.Ordinal));

    public static ShopForm Of(ShopSettings shop)
    {
        var fields = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["name"] = shop.Name,
            ["zone"] = shop.Zone,
            ["currency"] = shop.Currency,
            ["email"] = shop.OwnerEmail,
            ["otherDays"] = OtherDaysText.Of(shop.OtherDays),
            [ShipDays] = string.Join(',', shop.ShipDays),
            ["rackBlanks"] = Words.Plain(shop.RackBlanks),
            ["mostBlanksPerBatch"] = Words.Plain(shop.MostBlanksPerBatch),
            ["confidence"] = InHundred(shop.Confidence),
            ["dampNightChance"] = InHundred(shop.DampNightChance),
            ["lostEveningChance"] = InHundred(shop.LostEveningChance),
            ["watchBelow"] = InHundred(shop.WatchBelow),
            ["clipChance"] = InHundred(shop.ClipChance),
            ["reminderAt"] = Words.Clock(shop.ReminderAt),
            ["selling"] = shop.Selling ? "on" : "",
            ["gradeSteps"] = shop.GradeSteps.ToString(),
            ["lengthUnit"] = shop.LengthUnit.ToString(),
            ["yieldHalfLifeDays"] = Words.Plain(shop.YieldHalfLifeDays),
            ["beforeMarker"] = InHundred(shop.BeforeMarker),
            ["shelfService"] = InHundred(shop.ShelfService),
            ["blankCost"] = new Money(shop.Costs.Blank, shop.Currency).Figure,
            ["benchHourCost"] = new Money(shop.Costs.BenchHour, shop.Currency).Figure,
            ["lateDayCost"] = new Money(shop.Costs.LateDay, shop.Currency).Figure,
            ["surplusShare"] = InHundred(shop.Costs.SurplusShare),
            ["depositShare"] = InHundred(shop.Payment.DepositShare),
            ["keptShare"] = InHundred(shop.Payment.KeptShare),
            ["taxShare"] = InHundred(shop.Payment.TaxShare),
            ["taxName"] = shop.Payment.TaxName ?? "",
            ["paperNote"] = shop.Payment.PaperNote ?? "",
        };
        WriteHours(shop.Hours, fields, "");
        HelperForm.Write(shop.Helpers, fields);
        return new ShopForm(fields);
    }

    /// <summary>The places of the helpers, and one more while there is one.</summary>
    public IEnumerable<int> HelperPlaces =>
        HelperForm.Places.Take(HelperForm.Places.LastOrDefault(place => HelperForm.Fields(place).Any(IsFilled)) + 1);

    public bool ShipsOn(DayOfWeek day) => this[ShipDays].Split(',').Contains(day.ToString());

    /// <summary>The settings that were typed; what the form does not ask stays as it is.</summary>
    public static Result<ShopView> Read(IFormCollection form, ShopSettings shop)
    {
        var hours = Hours(form, "");
        var helpers = HelperForm.Read(form);
        var otherDays = OtherDaysText.Parse(form.Text("otherDays"), "otherDays");
        var numbers = form.Wholes("rackBlanks", "mostBlanksPerBatch", "yieldHalfLifeDays");
        var chances = Chances(form);
        var reminder = Reminder(form.Text("reminderAt"));
        var costs = chances.Then(typed => Costs(form, form.Text("currency"), typed["surplusShare"]));
        var payment = Payment(form, shop.Payment);
        var fault =
            hours.Refusal
            ?? payment.Refusal
            ?? otherDays.Refusal
            ?? helpers.Refusal
            ?? numbers.Refusal
            ?? chances.Refusal
            ?? reminder.Refusal
            ?? costs.Refusal;
        return fault is not null
            ? fault
            : ShopView.Of(shop) with
            {
                Name = form.Text("name"),
                Zone = form.Text("zone"),
                Currency = form.Text("currency"),
                Email = form.Text("email"),
                Hours = hours.Value,
                OtherDays = otherDays.Value,
                Helpers = helpers.Value,
                ShipDays = [.. Week.Where(Typed(form).ShipsOn)],
                RackBlanks = numbers.Value["rackBlanks"],
                MostBlanksPerBatch = numbers.Value["mostBlanksPerBatch"],
                YieldHalfLifeDays = numbers.Value["yieldHalfLifeDays"],
                Confidence = chances.Value["confidence"],
                DampNightChance = chances.Value["dampNightChance"],
                LostEveningChance = chances.Value["lostEveningChance"],
                WatchBelow = chances.Value["watchBelow"],
                ClipChance = chances.Value["clipChance"],
                ReminderAt = reminder.Value,
                Selling = form.Text("selling").Length > 0,
                BeforeMarker = chances.Value["beforeMarker"],
                ShelfService = chances.Value["shelfService"],
                Costs = costs.Value,
                Payment = payment.Value,
                GradeSteps =
                    form.Text("gradeSteps") == nameof(GradeSteps.Quarter) ? GradeSteps.Quarter : GradeSteps.Half,
                LengthUnit = Unit(form),
            };
    }

    /// <summary>What the maker's gauge reads.</summary>
    internal static LengthUnit Unit(IFormCollection form) =>
        form.Text("lengthUnit") == nameof(LengthUnit.Inch) ? LengthUnit.Inch : LengthUnit.Millimetre;

    internal static void WriteHours(
        IReadOnlyDictionary<DayOfWeek, IReadOnlyList<OpenHours>> week,
        Dictionary<string, string> fields,
        string prefix
    )
    {
        foreach (var (day, hours) in week)
        {
            fields[$"{prefix}{day}"] = HoursText.Of(hours);
        }
    }

    /// <param name="prefix">What the names of the fields begin with, before the weekday.</param>
    internal static Result<IReadOnlyDictionary<DayOfWeek, IReadOnlyList<OpenHours>>> Hours(
        IFormCollection form,
        string prefix
    )
    {
        var week = new Dictionary<DayOfWeek, IReadOnlyList<OpenHours>>();
        foreach (var day in Week)
        {
            var hours = HoursText.Parse(form.Text($"{prefix}{day}"), $"{prefix}{day}");
            if (hours.Refusal is { } refusal)
            {
                return refusal;
            }

            if (hours.Value.Count > 0)
            {
                week[day] = hours.Value;
            }
        }

        return week;
    }

    private static Result<ShopCosts> Costs(IFormCollection form, string currency, double surplusShare)
    {
        var amounts = new Dictionary<string, long>(StringComparer.Ordinal);
        foreach (var field in new[] { "blankCost", "benchHourCost", "lateDayCost" })
        {
            if (!Money.TryParse(form.Text(field), currency, out var amount))
            {
                return Refusal.Invalid(
                    field,
                    $"“{form.Text(field)}” is not an amount.",
                    $"an amount of {currency}, such as {new Money(1500, currency).Figure}"
                );
            }

            amounts[field] = amount.Amount;
        }

        return new ShopCosts(amounts["blankCost"], amounts["benchHourCost"], amounts["lateDayCost"], surplusShare);
    }

    /// <summary>A script that does not send the terms leaves them as they are.</summary>
    private static Result<PaymentTerms> Payment(IFormCollection form, PaymentTerms terms)
    {
        if (!form.ContainsKey("depositShare"))
        {
            return terms;
        }

        var deposit = Share(form, "depositShare");
        var kept = Share(form, "keptShare");
        var tax = Share(form, "taxShare");
        return (deposit.Refusal ?? kept.Refusal ?? tax.Refusal) is { } fault
            ? fault
            : new PaymentTerms(
                deposit.Value,
                kept.Value,
                Filled(form, "paperNote"),
                tax.Value,
                Filled(form, "taxName")
            );
    }

    private static string? Filled(IFormCollection form, string field) =>
        form.Text(field) is { Length: > 0 } text ? text : null;

    private bool IsFilled(string field) => this[field].Length > 0;

    private static string InHundred(double chance) =>
        ((decimal)chance * 100).ToString("0.####", CultureInfo.InvariantCulture);

    private static Result<IReadOnlyDictionary<string, double>> Chances(IFormCollection form)
    {
        var chances = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var field in InHundreds)
        {
            var share = Share(form, field);
            if (share.Refusal is { } refusal)
            {
                return refusal;
            }

            chances[field] = share.Value;
        }

        return chances;
    }

    private static Result<double> Share(IFormCollection form, string field) =>
        decimal.TryParse(
            form.Text(field),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var inHundred
        )
            ? (double)(inHundred / 100)
            : Refusal.Invalid(field, $"“{form.Text(field)}” is not a number.", "a number in 100, such as 10");

    private static Result<TimeOnly> Reminder(string text) =>
        TimeOnly.TryParseExact(text, "H:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? time
            : Refusal.Invalid("reminderAt", $"“{text}” is not a time of day.", "hours and minutes, such as 7:00");
}
