using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>The helpers as fields of the settings form: a place for each, numbered from 1. An empty place is nobody.</summary>
public static class HelperForm
{
    public static IEnumerable<int> Places => Enumerable.Range(1, Helper.Most);

    public static string Name(int place) => FormattableString.Invariant($"helper{place}");

    /// <summary>What the names of a helper's other fields begin with.</summary>
    public static string Prefix(int place) => $"{Name(place)}-";

    public static string OtherDays(int place) => $"{Prefix(place)}otherDays";

    public static string Leaves(int place) => $"{Prefix(place)}leaves";

    public static IEnumerable<string> Fields(int place) =>
        [Name(place), OtherDays(place), .. ShopForm.Week.Select(day => $"{Prefix(place)}{day}")];

    public static void Write(IReadOnlyList<Helper> helpers, Dictionary<string, string> fields)
    {
        foreach (var (place, helper) in Places.Zip(helpers))
        {
            fields[Name(place)] = helper.Name;
            fields[OtherDays(place)] = OtherDaysText.Of(helper.OtherDays);
            ShopForm.WriteHours(helper.Hours, fields, Prefix(place));
        }
    }

    public static Result<IReadOnlyList<Helper>> Read(IFormCollection form)
    {
        var helpers = new List<Helper>();
        foreach (var place in Places.Where(place => IsTaken(form, place)))
        {
            var helper = Read(form, place);
            if (helper.Refusal is { } refusal)
            {
                return refusal;
            }

            helpers.Add(helper.Value);
        }

        return helpers;
    }

    private static bool IsTaken(IFormCollection form, int place) =>
        form.Text(Leaves(place)).Length == 0 && Fields(place).Any(field => form.Text(field).Length > 0);

    private static Result<Helper> Read(IFormCollection form, int place)
    {
        var hours = ShopForm.Hours(form, Prefix(place));
        var otherDays = OtherDaysText.Parse(form.Text(OtherDays(place)), OtherDays(place));
        return form.Text(Name(place)).Length == 0
                ? Refusal.Invalid(Name(place), "The helper has no name.", "a name, or a tick that they leave")
            : (hours.Refusal ?? otherDays.Refusal) is { } fault ? fault
            : new Helper(form.Text(Name(place)), hours.Value, otherDays.Value);
    }
}
