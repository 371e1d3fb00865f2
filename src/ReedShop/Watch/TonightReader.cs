using ReedShop.Planning.Forecasting;
using ReedShop.Platform;
using ReedShop.Workshop;

namespace ReedShop.Watch;

/// <summary>How the chance of one promise changes.</summary>
public sealed record ChangedChance(int Order, double From, double To);

/// <summary>A sitting that fits into the minutes of tonight.</summary>
/// <param name="Gain">Promises kept besides, on average: the sum of what all chances gain.</param>
public sealed record TonightSitting(
    string Batch,
    string BatchNumber,
    string Model,
    string FirstStep,
    int Blanks,
    int Minutes,
    double Gain,
    IReadOnlyList<ChangedChance> Gains
);

/// <summary>What is worth doing in some minutes tonight.</summary>
/// <param name="Sittings">In the order to do them; empty where none fits.</param>
/// <param name="LeastMinutes">What the shortest sitting that can be done today takes; missing where none can.</param>
public sealed record TonightView(int Minutes, IReadOnlyList<TonightSitting> Sittings, int? LeastMinutes);

public sealed class TonightReader(FactsReader reader)
{
    private const int MostMinutes = 600;

    public static Refusal MinutesRefusal(string minutes) =>
        Refusal.Invalid("minutes", $"“{minutes}” cannot be used.", $"whole minutes from 1 to {MostMinutes}");

    public async Task<Result<TonightView>> Read(int minutes, CancellationToken cancel)
    {
        if (minutes is < 1 or > MostMinutes)
        {
            return MinutesRefusal(minutes.ToString(System.Globalization.CultureInfo.InvariantCulture));
        }

        var read = await reader.Read(cancel);
        return read.Refusal is { } refusal ? refusal : await Task.Run(() => View(read.Value, minutes, cancel), cancel);
    }

    private static TonightView View(BenchFacts facts, int minutes, CancellationToken cancel)
    {
        var state = ShopStates.Of(facts);
        return new TonightView(
            minutes,
            [.. Tonight.Worth(state, minutes, cancel).Select(worth => Sitting(facts, worth))],
            Tonight.LeastMinutes(state)
        );
    }

    private static TonightSitting Sitting(BenchFacts facts, WorthDoing worth)
    {
        var batch = facts.OpenBatches.First(open => open.Id == worth.Batch);
        var model = facts.Models[batch.Model];
        return new TonightSitting(
            batch.Id,
            batch.Number,
            model.Name,
            model.Route[batch.NextStep].Name,
            batch.Blanks,
            worth.Minutes,
            worth.Gain,
            [
                .. worth.Gains.Select(gain => new ChangedChance(
                    facts.Orders.First(order => order.Id == gain.Order).Number,
                    gain.From,
                    gain.To
                )),
            ]
        );
    }
}
