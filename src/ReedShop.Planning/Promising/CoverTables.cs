using System.Collections.Concurrent;

namespace ReedShop.Planning.Promising;

/// <summary>
/// The chance that blanks of one source cover a need, for every number of them. A promise asks the same question for
/// every number of spare days, and buyers who type ask it again, so each table is made once for a state of the shop.
/// </summary>
internal sealed class CoverTables
{
    private readonly ConcurrentDictionary<Question, double[]> known = new();

    /// <returns>Index: blanks, 0..most.</returns>
    public double[] Of(
        ShopState state,
        PromiseRequest request,
        PromiseLine line,
        Strength aim,
        string? lot,
        int firstStep,
        int count,
        int most
    ) =>
        known.GetOrAdd(
            new Question(line.Model, aim, string.Join(' ', request.Accepted(line)), lot ?? "", firstStep, count, most),
            _ => LineCover.Chances(state.Models[line.Model], request.Accepted(line), aim, lot, firstStep, count, most)
        );

    private readonly record struct Question(
        string Model,
        Strength Aim,
        string Accepted,
        string Lot,
        int FirstStep,
        int Count,
        int Most
    );
}
