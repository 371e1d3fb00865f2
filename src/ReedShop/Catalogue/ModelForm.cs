using System.Globalization;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Catalogue;

/// <summary>Reads what is typed about a model.</summary>
public static class ModelForm
{
    public const string GramsField = "gramsPerReed";

    /// <summary>A ready model with the owner's cut, price and strengths.</summary>
    public static Result<(string Key, ModelWish Wish)> Ready(IFormCollection form, string currency)
    {
        if (ReadyRoutes.All.FirstOrDefault(route => route.Model == form.Text("ready")) is not { } ready)
        {
            return Refusal.Invalid(
                "ready",
                "There is no such ready model.",
                string.Join(", ", ReadyRoutes.All.Select(route => route.Name))
            );
        }

        var price = Price(form, currency);
        var strengths = Strengths(form.Text("strengths"));
        return (price.Refusal ?? strengths.Refusal) is { } refusal
            ? refusal
            : (
                ready.Model,
                new ModelWish(
                    ready.Name,
                    ready.Instrument,
                    form.Text("cut"),
                    strengths.Value,
                    price.Value,
                    RouteShape.Of(ready.Route)
                )
            );
    }

    public static Result<Money> Price(IFormCollection form, string currency) =>
        Money.TryParse(form.Text("price"), currency, out var price)
            ? price
            : Refusal.Invalid(
                "price",
                $"“{form.Text("price")}” is not a price.",
                $"an amount of {currency}, such as {new Money(2000, currency).Figure}"
            );

    public static Result<decimal> Grams(IFormCollection form) =>
        decimal.TryParse(
            form.Text(GramsField).Replace(',', '.'),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var grams
        )
            ? grams
            : Refusal.Invalid(GramsField, $"“{form.Text(GramsField)}” is not a weight.", "grams, such as 1.5");

    /// <summary>"2.5, 3, 3½".</summary>
    public static Result<IReadOnlyList<Strength>> Strengths(string text)
    {
        var strengths = new List<Strength>();
        foreach (var part in text.Split([',', ';', ' '], StringSplitOptions.RemoveEmptyEntries))
        {
            if (!Strength.TryParse(part, out var strength))
            {
                return Refusal.Invalid("strengths", $"“{part}” is no strength.", Strength.Allowed);
            }

            strengths.Add(strength);
        }

        return strengths;
    }
}
