using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Planning.Yields;
using ReedShop.Platform;
using ReedShop.Quotes;
using ReedShop.Workshop;

namespace ReedShop.Opening;

/// <summary>What a buyer would be told today.</summary>
/// <param name="Told">Missing where no date reaches the confidence.</param>
public sealed record FirstPromise(ReedModel Model, Strength Strength, int Quantity, double Confidence, QuoteView? Told);

/// <summary>Asks for some reeds as a buyer would, and stores nothing: a new maker sees what the shop can promise.</summary>
public sealed class FirstPromises(QuoteMaker quotes, StateReader states)
{
    /// <summary>What is reckoned of the first counted step of a model.</summary>
    public async Task<StepYield?> Reckoned(ReedModel model, CancellationToken cancel)
    {
        var read = await states.Read(cancel);
        return read.IsRefused
            ? null
            : read
                .Value.State.Models[model.Key]
                .Yields(null)
                .Step(model.Route.CountedSteps(1, model.Route.Steps.Count)[0]);
    }

    /// <summary>The middle one of its strengths.</summary>
    public async Task<FirstPromise> Ask(ReedModel model, int quantity, double confidence, CancellationToken cancel)
    {
        var strength = model.Strengths[model.Strengths.Count / 2];
        var request = new QuoteRequest([new QuoteLine(model.Key, strength, quantity)], confidence);
        var told = await quotes.MakeForNobody(request, cancel);
        return new FirstPromise(model, strength, quantity, confidence, told.IsRefused ? null : told.Value);
    }
}
