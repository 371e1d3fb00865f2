using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Sizing;

namespace ReedShop.Planning.Promising;

/// <summary>
/// Nets each line against drawer, batches under way, shelf and cane, in this order, and places what must be started as
/// early as the bench allows. Lines are served one after another and share what there is.
/// </summary>
internal sealed class LineMaker
{
    private readonly ShopState state;
    private readonly PromiseRequest request;
    private readonly double lineCover;
    private readonly Dictionary<(string Model, Strength Strength), int> drawer;
    private readonly Dictionary<string, int> pegged;
    private readonly Dictionary<BlankSource, int> taken = [];
    private readonly NewcomerPlacing placing;

    /// <summary>A chance computed twice in different order may differ in the last digits; that is no lower chance.</summary>
    private const double Rounding = 1e-9;

    private LineMaker(ShopState state, PromiseRequest request, double lineCover)
    {
        this.state = state;
        this.request = request;
        this.lineCover = lineCover - Rounding;
        drawer = state.DrawerFree.ToDictionary();
        pegged = state.Batches.ToDictionary(batch => batch.Root, batch => batch.Pegged, StringComparer.Ordinal);
        placing = new NewcomerPlacing(state);
    }

    /// <summary>Every line served with at least <paramref name="lineCover"/>, or the reason why one is not.</summary>
    public static (IReadOnlyList<PromisedLine> Lines, NoPromiseReason? Reason) Make(
        ShopState state,
        PromiseRequest request,
        double lineCover
    )
    {
        var maker = new LineMaker(state, request, lineCover);
        var lines = new List<PromisedLine>();
        foreach (var line in request.Lines)
        {
            var (made, reason) = maker.Make(line);
            if (made is null)
            {
                return (lines, reason);
            }

            lines.Add(made);
        }

        return (lines, null);
    }

    private (PromisedLine? Made, NoPromiseReason? Reason) Make(PromiseLine line)
    {
        var fromDrawer = TakeFromDrawer(line);
        var missing = line.Quantity - fromDrawer.Sum(reeds => reeds.Count);
        return missing == 0 ? (new PromisedLine(line, fromDrawer, null, 0, [], 1, 0, new WayAhead()), null)
            : FromBatch(line, fromDrawer, missing) is { } underWay ? (underWay, null)
            : FromNew(line, fromDrawer, missing);
    }

    private List<DrawerReeds> TakeFromDrawer(PromiseLine line)
    {
        var reeds = new List<DrawerReeds>();
        var wanted = line.Quantity;
        foreach (var strength in request.Accepted(line))
        {
            var free = Math.Min(wanted, drawer.GetValueOrDefault((line.Model, strength)));
            if (free > 0)
            {
                reeds.Add(new DrawerReeds(strength, free));
                drawer[(line.Model, strength)] -= free;
                wanted -= free;
            }
        }

        return reeds;
    }

    /// <summary>The first batch under way that covers these reeds besides those spoken for, without weakening its promises.</summary>
    private PromisedLine? FromBatch(PromiseLine line, List<DrawerReeds> fromDrawer, int missing)
    {
        // Reeds a half strength off would serve this buyer but not the earlier ones, so their batch is not shared.
        var open = state.Batches.Where(batch => batch.Pegged == 0 || request.Accepted(line).Count() == 1);
        foreach (var batch in open.Where(batch => batch.Model == line.Model && batch.Serves == line.Strength))
        {
            var total = pegged[batch.Root] + missing;
            var cover = CoverOf(line, batch.Aim, batch.CaneLot, batch.NextStep, total, batch.Blanks)[batch.Blanks];
            if (cover >= Math.Max(lineCover, batch.LeastCover))
            {
                pegged[batch.Root] = total;
                return new PromisedLine(line, fromDrawer, batch.Root, missing, [], cover, batch.FinishDay, batch.Ahead);
            }
        }

        return null;
    }

    private (PromisedLine? Made, NoPromiseReason? Reason) FromNew(
        PromiseLine line,
        List<DrawerReeds> fromDrawer,
        int missing
    )
    {
        var reason = NoPromiseReason.TooLittleCane;
        foreach (var source in BlankSource.Of(state, line.Model, request.OrderDay))
        {
            var most = source.Blanks - taken.GetValueOrDefault(source);
            var sensible = BlanksNeeded.MostSensible(missing);
            var aim = AimFor(line, source.Lot);
            var needed = BlanksNeeded.Fewest(
                length => CoverOf(line, aim, source.Lot, source.FirstStep, missing, length),
                lineCover,
                Math.Min(most, sensible)
            );
            if (needed is not (var blanks, var cover))
            {
                reason = most >= sensible ? NoPromiseReason.TooUncertain : reason;
                continue;
            }

            if (placing.Earliest(line, aim, source, blanks) is not { } batches)
            {
                reason = NoPromiseReason.NoEvenings;
                continue;
            }

            taken[source] = taken.GetValueOrDefault(source) + blanks;
            var finish = batches.Max(batch => batch.FinishDay);
            return (new PromisedLine(line, fromDrawer, null, 0, batches, cover, finish, batches[0].Ahead), null);
        }

        return (null, reason);
    }

    /// <summary>Toward which strength new blanks are worked, so that most of them serve the line.</summary>
    private Strength AimFor(PromiseLine line, string? lot) =>
        AimChoice.AimFor(
            state.Models[line.Model].Yields(lot),
            line.Strength,
            request.Accepted(line).ToHashSet(),
            state.QuartersBetweenGrades
        );

    private double[] CoverOf(PromiseLine line, Strength aim, string? lot, int firstStep, int count, int most) =>
        state.Covers.Of(state, request, line, aim, lot, firstStep, count, most);
}
