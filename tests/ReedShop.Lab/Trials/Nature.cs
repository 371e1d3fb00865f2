using ReedShop.Planning;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Yields;

namespace ReedShop.Lab.Trials;

/// <summary>Where draws about one tray of one batch are found.</summary>
/// <param name="Batch">The same for the n-th batch of an order line, whichever way promises are made.</param>
internal readonly record struct TrayAddress(ulong Batch, string Model, string Lot, int Tray);

/// <summary>
/// The truth of one shop, which only shows in what the bench records: survival of each step, with an effect of the lot
/// that all its steps share and clumping between batches; blanks to be worked again; where reeds of an aim land.
/// </summary>
internal sealed class Nature(ulong seed, Hardship hardship)
{
    private readonly double lotSpread = hardship.LotSpread.In(Draws.At(seed, What.Spread, 1));
    private readonly double lotShift = hardship.LotShift.In(Draws.At(seed, What.Spread, 2));
    private readonly double batchShift = hardship.BatchShift.In(Draws.At(seed, What.Spread, 3));
    private readonly double reedSpread = hardship.ReedSpread.In(Draws.At(seed, What.Spread, 4));
    private readonly double modelSpread = hardship.ModelSpread.In(Draws.At(seed, What.Spread, 5));

    /// <summary>Lots of which fewer blanks survive at every step.</summary>
    public HashSet<string> BadLots { get; } = new(StringComparer.Ordinal);

    /// <summary>How blanks on one tray come out of a step; those to be worked again have not come out yet.</summary>
    public (int Passed, int Again, int Rejected) Work(TrayAddress tray, Step step, int blanks)
    {
        var dice = Draws.At(seed, What.TrayStep, tray.Batch, (ulong)tray.Tray, Key(step.Name));
        var again = step.RedoFrom is null ? 0 : dice.Of(blanks, RedoChance(step));
        var passed = dice.Of(blanks - again, Survival(tray, step));
        return (passed, again, blanks - again - passed);
    }

    /// <summary>Where so many finished reeds land, sorted into the grades of the shop.</summary>
    public IReadOnlyDictionary<Strength, int> Grades(TrayAddress tray, Strength aim, int reeds, int quartersBetween)
    {
        var dice = Draws.At(seed, What.TrayGrades, tray.Batch, (ulong)tray.Tray);
        var centre = aim.Quarters + Shift(tray);
        return Enumerable
            .Range(0, reeds)
            .Select(_ => Sorted(centre + (reedSpread * dice.Normal()), quartersBetween))
            .CountBy(strength => strength)
            .ToDictionary();
    }

    private double RedoChance(Step step) => hardship.Again.In(Draws.At(seed, What.Step, Key(step.Name), 2));

    /// <summary>The share of one batch at one step: its trays, and the blanks that come again, share it.</summary>
    private double Survival(TrayAddress tray, Step step)
    {
        var name = Key(step.Name);
        var usual = hardship.Survival.In(Draws.At(seed, What.Step, name, 0));
        if (usual >= 1)
        {
            return 1;
        }

        var clumping = hardship.Clumping.In(Draws.At(seed, What.Step, name, 1));
        var logit =
            Math.Log(usual / (1 - usual))
            + (modelSpread * Draws.At(seed, What.ModelStep, Key(tray.Model), name).FirstNormal())
            + (lotSpread * Draws.At(seed, What.Lot, Key(tray.Lot), 0).FirstNormal())
            + (BadLots.Contains(tray.Lot) ? Math.Log(Shock.BadLotOdds) : 0);
        var dice = Draws.At(seed, What.BatchStep, tray.Batch, name);
        return dice.Beta(1 / (1 + Math.Exp(-logit)), clumping);
    }

    /// <summary>By how many quarters the reeds of a batch come out harder than their aim.</summary>
    private double Shift(TrayAddress tray) =>
        hardship.Bias.In(Draws.At(seed, What.ModelStep, Key(tray.Model)))
        + (lotShift * Draws.At(seed, What.Lot, Key(tray.Lot), 1).FirstNormal())
        + (batchShift * Draws.At(seed, What.Batch, tray.Batch).FirstNormal());

    private static Strength Sorted(double quarters, int between) =>
        Strength.OfQuarters(
            Math.Clamp(between * (int)Math.Round(quarters / between), Strength.LeastQuarters, Strength.MostQuarters)
        );

    /// <summary>A number for a name, the same on every machine.</summary>
    private static ulong Key(string name) => name.Aggregate(0UL, (key, letter) => Draws.Mixed(key, letter));
}
