using System.Globalization;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Cane;

/// <summary>Reads what is typed about a lot.</summary>
public static class CaneForm
{
    public static Result<CaneWish> Read(IFormCollection form)
    {
        var harvest = Needed(form, "harvest", "In which year was it cut?");
        var blanks = Needed(form, "blanks", "How many blanks does it give?");
        return (harvest.Refusal ?? blanks.Refusal) is { } refusal ? refusal
            : !DateOnly.TryParseExact(
                form.Text("seasonedFrom"),
                "yyyy-MM-dd",
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out var seasonedFrom
            )
                ? Refusal.Invalid("seasonedFrom", "From when on does it season?", "a date such as 2026-06-01")
            : new CaneWish(
                form.Text("lot"),
                form.Text("model"),
                form.Text("supplier"),
                harvest.Value,
                seasonedFrom,
                blanks.Value
            );
    }

    public static Result<int> Needed(IFormCollection form, string field, string question) =>
        form.Whole(field)
            .Then<int>(number =>
                number is { } whole ? whole : Refusal.Invalid(field, question, "a whole number of 0 or more")
            );
}
