using System.Globalization;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Quotes;
using static ReedShop.Checkout.CheckoutTexts;

namespace ReedShop.Checkout;

/// <summary>One line of the order form, as it was typed.</summary>
public sealed record TypedLine(string Model = "", string Strength = "", string Quantity = "");

/// <summary>The order form as it was typed, so that nothing is lost when something in it is refused.</summary>
public sealed record OrderForm(
    IReadOnlyList<TypedLine> Lines,
    string Confidence = "",
    bool Neighbours = false,
    string NeedBy = "",
    bool PartsAreFine = false,
    string QuoteId = "",
    string Name = "",
    string Email = "",
    string Street = "",
    string Locality = "",
    string Region = "",
    string PostalCode = "",
    string Country = "",
    string Voucher = ""
)
{
    public static OrderForm Empty { get; } = new([new TypedLine()]);

    public static OrderForm Read(IFormCollection form) =>
        new(
            [
                .. form["model"]
                    .Select(
                        (model, index) =>
                            new TypedLine(model ?? "", At(form, "strength", index), At(form, "quantity", index))
                    ),
            ],
            form.Text("confidence"),
            form.Text("neighbours").Length > 0,
            form.Text("needBy"),
            form.Text("partsAreFine").Length > 0,
            form.Text("quoteId"),
            form.Text("name"),
            form.Text("email"),
            form.Text("street"),
            form.Text("locality"),
            form.Text("region"),
            form.Text("postalCode"),
            form.Text("country"),
            form.Text("voucher")
        );

    /// <summary>The form that would ask the same again.</summary>
    /// <param name="usual">The confidence of a form that names none.</param>
    public static OrderForm Of(ValidRequest request, double usual) =>
        new(
            [
                .. request.Lines.Select(line => new TypedLine(
                    line.Model,
                    Sampler.Value(line.Strength),
                    Words.Plain(line.Quantity)
                )),
            ],
            request.Confidence.Equals(usual) ? "" : request.Confidence.ToString(CultureInfo.InvariantCulture),
            request.Neighbours > 0,
            request.NeedBy is { } day ? Words.Iso(day) : "",
            request.PartsAreFine,
            Country: request.Country ?? "",
            Voucher: request.Voucher?.Code ?? ""
        );

    /// <summary>What is typed of who orders, by the names of its fields.</summary>
    /// <param name="besidesCountry">The country is a part of the question, so it says nothing of that.</param>
    public IEnumerable<(string Name, string Text)> Buyer(bool besidesCountry) =>
        new[]
        {
            ("name", Name),
            ("email", Email),
            ("street", Street),
            ("locality", Locality),
            ("region", Region),
            ("postalCode", PostalCode),
            ("country", besidesCountry ? "" : Country),
        }.Where(field => field.Item2.Length > 0);

    /// <summary>A further line begins with the model of the last one: most orders mix strengths of one model.</summary>
    public OrderForm WithAnotherLine() =>
        this with
        {
            Lines = [.. Lines, new TypedLine(Lines is [.., var last] ? last.Model : "")],
        };

    /// <summary>Lines without a quantity are taken off, unless nothing would be left.</summary>
    public OrderForm WithoutEmptyLines() =>
        Lines.Where(line => line.Quantity.Length > 0).ToArray() is { Length: > 0 } filled
            ? this with
            {
                Lines = filled,
            }
            : this with
            {
                Lines = [.. Lines.Take(1).DefaultIfEmpty(new TypedLine())],
            };

    /// <summary>The form with the ordinary lines that its samplers stand for.</summary>
    public OrderForm WithoutSamplers() => this with { Lines = [.. Lines.SelectMany(Sampler.Lines)] };

    public Result<QuoteRequest> ToRequest()
    {
        var lines = new List<QuoteLine>();
        for (var index = 0; index < Lines.Count; index++)
        {
            var line = ToLine(Lines[index], index);
            if (line.Refusal is { } refusal)
            {
                return refusal;
            }

            lines.Add(line.Value);
        }

        var needBy = ReadNeedBy();
        return needBy.Refusal is { } fault
            ? fault
            : ReadConfidence()
                .Then<QuoteRequest>(confidence => new QuoteRequest(
                    lines,
                    confidence,
                    Neighbours ? 1 : 0,
                    NeedBy: needBy.Value,
                    PartsAreFine: PartsAreFine,
                    Country: Country.Length == 0 ? null : Country,
                    Voucher: Voucher.Length == 0 ? null : Voucher
                ));
    }

    public OrderWish ToWish() =>
        new(
            QuoteId,
            new Buyer(Name, Email),
            new PostalAddress(Street, Locality, PostalCode, Country, Region.Length == 0 ? null : Region),
            Words.Culture.Name
        );

    private static string At(IFormCollection form, string name, int index) =>
        form[name].ElementAtOrDefault(index)?.Trim() ?? "";

    /// <summary>One line as it is asked for, or what cannot be read of it.</summary>
    public static Result<QuoteLine> ToLine(TypedLine line, int index)
    {
        if (!int.TryParse(line.Quantity, NumberStyles.None, CultureInfo.InvariantCulture, out var quantity))
        {
            return Refusal.Invalid(Field("quantity"), Say["HowManyReeds"], Say["ReedsUpTo", ValidRequest.MostQuantity]);
        }

        return Strength.TryParse(line.Strength, out var strength)
            ? new QuoteLine(line.Model, strength, quantity)
            : Refusal.Invalid(Field("strength"), Say["StrengthUnusable"], Say["StrengthFromTo"]);

        string Field(string name) => FormattableString.Invariant($"lines[{index}].{name}");
    }

    private Result<DateOnly?> ReadNeedBy() =>
        NeedBy.Length == 0 ? (DateOnly?)null
        : DateOnly.TryParseExact(NeedBy, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
        : Refusal.Invalid("needBy", Say["DayUnreadable"], Say["DaySuchAs"]);

    private Result<double?> ReadConfidence() =>
        Confidence.Length == 0 ? (double?)null
        : double.TryParse(Confidence, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var chance)
            ? chance
        : Refusal.Invalid("confidence", Say["ConfidenceUnusable"], Say["ConfidenceFromTo"]);
}
