using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Workshop;

namespace ReedShop.Watch;

/// <summary>What kind of help a rescue is.</summary>
public enum RescueKind
{
    /// <summary>`POST /api/days/{date}/longer` does it.</summary>
    LongerDay,

    /// <summary>`POST /api/orders/{id}/elsewhere` does it.</summary>
    MadeElsewhere,

    /// <summary>`POST /api/orders/{id}/ask` asks the buyer.</summary>
    OtherStrength,

    /// <summary>Done by hand and recorded with `POST /api/drawer/clip`.</summary>
    Clip,
}

/// <summary>A promise that would stand worse.</summary>
public sealed record LoweredView(int Order, double From, double To);

/// <summary>Something the maker can do for a promise.</summary>
/// <param name="Change">In words.</param>
/// <param name="Chance">Of keeping the promise then.</param>
/// <param name="Lowers">Other promises that would stand worse by it.</param>
/// <param name="Date">The day that would be longer.</param>
/// <param name="Batch">Id of the batch the reeds were to come from; missing where nothing makes them yet.</param>
/// <param name="Blanks">Of the extra batch; missing where none is started.</param>
/// <param name="Also">The strength the buyer would be asked to take.</param>
/// <param name="Enough">Of a clip: the chance that as many as are missing come up to strength.</param>
public sealed record RescueView(
    RescueKind Kind,
    string Change,
    double Chance,
    IReadOnlyList<LoweredView> Lowers,
    DateOnly? Date = null,
    int? Minutes = null,
    string? Batch = null,
    string? Model = null,
    Strength? Strength = null,
    int? Quantity = null,
    int? Blanks = null,
    Strength? Also = null,
    double? Enough = null
);

/// <summary>A day to which the promise could move, and the chance it would then be told with.</summary>
public sealed record NewDateView(DateOnly ShipBy, double Chance);

/// <summary>How a promise stands, and what would help.</summary>
/// <param name="Causes">Why it is late in the draws that miss it, the largest share first.</param>
/// <param name="CountsAsBroken">In the record of kept promises, were it moved now; otherwise it is left out of it.</param>
/// <param name="Rescues">What helps most first; empty where nothing found helps.</param>
/// <param name="ReadyNow">What lies in the drawer for the order and could leave in a parcel of its own.</param>
/// <param name="NewDate">
/// The earliest later day that has the chance asked for; missing where none has, or the promised day has it still.
/// </param>
/// <param name="FactsVersion">Of the facts it was drawn from.</param>
/// <param name="Promise">In the words on time, to watch and late.</param>
public sealed record WatchView(
    OwnerOrderView Order,
    long FactsVersion,
    string Promise,
    double Chance,
    bool IsAtRisk,
    bool CountsAsBroken,
    IReadOnlyList<CauseShare> Causes,
    IReadOnlyList<RescueView> Rescues,
    IReadOnlyList<SentReeds> ReadyNow,
    NewDateView? NewDate
);

/// <summary>Rescues as the maker reads them.</summary>
internal sealed class RescueWords(BenchFacts facts)
{
    public RescueView Of(Rescue rescue) =>
        rescue switch
        {
            Rescue.LongerDay day => Longer(day),
            Rescue.MadeElsewhere made => Elsewhere(made),
            Rescue.OtherStrength other => Other(other),
            Rescue.Clip clip => Clip(clip),
            _ => throw new InvalidOperationException($"No words for {rescue.GetType().Name}."),
        };

    private RescueView Longer(Rescue.LongerDay day)
    {
        var date = facts.Today.AddDays(day.Day);
        return new RescueView(
            RescueKind.LongerDay,
            FormattableString.Invariant($"work longer by {day.Minutes} minutes on {date:dddd d MMMM}"),
            DueDay.Told(day.Chance),
            Lowered(day),
            Date: date,
            Minutes: day.Minutes
        );
    }

    private RescueView Elsewhere(Rescue.MadeElsewhere made)
    {
        var (line, reeds) = (made.From.Lines[0], made.Reeds);
        var how = string.Join(" and ", Ways(line));
        return new RescueView(
            RescueKind.MadeElsewhere,
            how,
            DueDay.Told(made.Chance),
            Lowered(made),
            Batch: made.Root,
            Model: reeds.Model,
            Strength: reeds.Strength,
            Quantity: reeds.Quantity,
            Blanks: line.Blanks > 0 ? line.Blanks : null
        );
    }

    private static IEnumerable<string> Ways(PromisedLine line)
    {
        var model = line.Line.Model;
        if (line.FromDrawer.Count > 0)
        {
            var aside = line.FromDrawer.Select(r => FormattableString.Invariant($"{r.Count} of {r.Strength}"));
            yield return $"set {string.Join(", ", aside)} ({model}) aside from the drawer";
        }

        if (line.FromBatch > 0)
        {
            yield return FormattableString.Invariant(
                $"take {line.FromBatch} of {line.Line.Strength} ({model}) from a batch under way that has some to spare"
            );
        }

        if (line.Blanks > 0)
        {
            yield return FormattableString.Invariant(
                $"start an extra batch of {line.Blanks} blanks for {line.ToMake} of {line.Line.Strength} ({model})"
            );
        }
    }

    private RescueView Other(Rescue.OtherStrength other) =>
        new(
            RescueKind.OtherStrength,
            $"ask the buyer to take {other.Also} as well as {other.Wanted} ({other.Model}), and the answer is yes",
            DueDay.Told(other.Chance),
            Lowered(other),
            Model: other.Model,
            Strength: other.Wanted,
            Also: other.Also
        );

    private RescueView Clip(Rescue.Clip clip) =>
        new(
            RescueKind.Clip,
            FormattableString.Invariant(
                $"clip {clip.Clipped} that lie in the drawer a quarter softer: {clip.Missing} at least come up to {clip.Wanted} about {(int)(100 * DueDay.Told(clip.Enough))} times in 100"
            ),
            DueDay.Told(clip.Chance),
            Lowered(clip),
            Model: clip.Model,
            Strength: clip.Wanted,
            Quantity: clip.Missing,
            Enough: clip.Enough
        );

    private IReadOnlyList<LoweredView> Lowered(Rescue rescue) =>
        [
            .. rescue.Lowers.Select(lowered => new LoweredView(
                facts.Orders.First(order => order.Id == lowered.Order).Number,
                DueDay.Told(lowered.From),
                DueDay.Told(lowered.To)
            )),
        ];
}
