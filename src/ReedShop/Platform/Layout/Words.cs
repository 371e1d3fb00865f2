using System.Globalization;
using ReedShop.Platform.Http;
using static ReedShop.Platform.Layout.FrameTexts;

namespace ReedShop.Platform.Layout;

/// <summary>
/// How figures, days and money are said on pages: the same words for the same thing everywhere, in the language of the
/// request. This is the one place that knows it.
/// </summary>
public static class Words
{
    private const int MinutesPerHour = 60;
    private const int LeastGrouped = 10_000;

    /// <summary>.29 times 100 is a little less than 29 in binary; it is 29 all the same.</summary>
    private const double Rounding = 1e-9;
    private const char NoBreakSpace = '\u00A0';

    /// <summary>Outside a page (scripts, letters) it is the shop's usual one.</summary>
    public static CultureInfo Culture =>
        CultureInfo.CurrentUICulture.Name.Length > 0 ? CultureInfo.CurrentUICulture : Languages.Usual;

    private static bool IsForPeople => CultureInfo.CurrentUICulture.Name.Length > 0;

    /// <summary>"Thu 4 March".</summary>
    public static string Day(DateOnly day) => Written(day, "Day.short");

    /// <summary>"Thu 4 March 2027", where another year may be meant.</summary>
    public static string DayOfYear(DateOnly day) => Written(day, "Day.ofYear");

    /// <summary>"Thursday 4 March 2027".</summary>
    public static string FullDay(DateOnly day) => Written(day, "Day.full");

    /// <summary>"Thu 4".</summary>
    public static string DayInWeek(DateOnly day) => Written(day, "Day.inWeek");

    /// <summary>"March 2027".</summary>
    public static string Month(DateOnly day) => Written(day, "Day.month");

    /// <summary>A day that could be sent back: "2027-03-04" to a script, in words on a page.</summary>
    public static string DayToSend(DateOnly day) => IsForPeople ? FullDay(day) : Iso(day);

    /// <summary>What one thing is called: on a page as the trade says it, to a script by the name it is sent with.</summary>
    public static string Named(string onPage, string toScript) => IsForPeople ? onPage : toScript;

    /// <summary>"2027-03-04", for addresses, date fields and the datetime attribute.</summary>
    public static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static string Clock(TimeOnly time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>"1 – 7 March 2027", "29 March – 4 April 2027".</summary>
    public static string Span(DateOnly first, DateOnly last) =>
        first.Month == last.Month
            ? $"{Written(first, "Day.firstOfSameMonth")} – {Written(last, "Day.last")}"
            : $"{Written(first, "Day.first")} – {Written(last, "Day.lastOfOtherMonth")}";

    /// <summary>"about 93 in 100".</summary>
    public static string Chance(double chance) => Say["Chance", InHundred(chance)];

    /// <summary>"93" of 100; rounded down, because a promise may not be made to look better than it is.</summary>
    public static string InHundred(double chance) => Number((int)Math.Floor((chance * 100) + Rounding));

    /// <summary>"35 min", "2 h", "7 h 50 min".</summary>
    public static string Minutes(int minutes) =>
        minutes < MinutesPerHour ? $"{Number(minutes)} min"
        : minutes % MinutesPerHour == 0 ? $"{Number(minutes / MinutesPerHour)} h"
        : $"{Number(minutes / MinutesPerHour)} h {Number(minutes % MinutesPerHour)} min";

    /// <summary>"1 blank", "5 blanks": for pages that are in English only.</summary>
    public static string Count(int count, string one, string many) => $"{Number(count)} {(count == 1 ? one : many)}";

    public static string Blanks(int count) => Count(count, "blank", "blanks");

    /// <summary>"1,250".</summary>
    public static string Number(int number) => number.ToString("N0", FormatFor(number));

    /// <summary>"2.5", "3".</summary>
    public static string Decimal(double number) => number.ToString("#,0.#", Culture);

    /// <summary>"2.5", "3.0".</summary>
    public static string OneDecimal(double number) => number.ToString("N1", Culture);

    /// <summary>"1250": digits alone, for fields and for what is a name, such as the number of an order.</summary>
    public static string Plain(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>"€12.50", "12,50 €": the shop's currency as the reader's country writes amounts.</summary>
    public static string Money(Money money)
    {
        var format = FormatFor(money.Major);
        format.CurrencyDecimalDigits = money.MinorDigits;
        format.CurrencySymbol = Sign(money.Currency, format);
        return money.Major.ToString("C", format).Replace(' ', NoBreakSpace);
    }

    /// <summary>
    /// Whether a count takes the singular: French and Brazilian Portuguese count 0 with 1 (CLDR plural rules "fr" and
    /// "pt" against "pt-PT", "en" and "de").
    /// </summary>
    public static bool IsOne(int count) =>
        count == 1 || (count == 0 && (Languages.Of(Culture) == "fr" || Culture.Name == "pt-BR"));

    /// <summary>Portugal groups digits from five on (CLDR, minimumGroupingDigits of "pt-PT"); .NET knows no such rule.</summary>
    private static NumberFormatInfo FormatFor(decimal amount)
    {
        var format = (NumberFormatInfo)Culture.NumberFormat.Clone();
        if (Culture.Name == "pt-PT" && Math.Abs(amount) < LeastGrouped)
        {
            (format.NumberGroupSizes, format.CurrencyGroupSizes) = ([0], [0]);
        }

        return format;
    }

    /// <summary>
    /// The sign that can mean no other money here: € and £, and what the reader pays with at home. All else goes by its
    /// code, since a foreign dollar or crown may be one of several.
    /// </summary>
    private static string Sign(string currency, NumberFormatInfo format)
    {
        var home = new RegionInfo(Culture.Name);
        return currency switch
        {
            "EUR" => "€",
            "GBP" => "£",
            _ when currency == home.ISOCurrencySymbol => home.CurrencySymbol,
            _ => format.CurrencyPositivePattern == 0 ? currency + NoBreakSpace : currency,
        };
    }

    private static string Written(DateOnly day, string pattern) => day.ToString(Say[pattern], Culture);
}
