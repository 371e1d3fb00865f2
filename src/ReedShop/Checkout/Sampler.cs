using System.Globalization;
using ReedShop.Catalogue;
using ReedShop.Planning;

namespace ReedShop.Checkout;

/// <summary>
/// A sampler: a strength with the next softer and the next harder one, as many of each. It is a way to fill the form: of
/// one choice it makes ordinary lines.
/// </summary>
public static class Sampler
{
    private const int Strengths = 3;
    private const char Between = '+';

    /// <summary>Neighbouring strengths the model is offered in, from soft to hard.</summary>
    public static IEnumerable<IReadOnlyList<Strength>> Of(ReedModel model)
    {
        var offered = model.Strengths.Order().ToArray();
        return Enumerable
            .Range(0, Math.Max(0, offered.Length - Strengths + 1))
            .Select(first => offered[first..(first + Strengths)]);
    }

    /// <summary>"2.5+3+3.5", the choice as the form sends it.</summary>
    public static string Value(IEnumerable<Strength> strengths) => string.Join(Between, strengths.Select(Value));

    public static string Value(Strength strength) => strength.Value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>The lines that one typed line stands for: one for each strength of a sampler.</summary>
    public static IEnumerable<TypedLine> Lines(TypedLine line) =>
        line.Quantity.Length == 0 ? [line] : line.Strength.Split(Between).Select(one => line with { Strength = one });
}
