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
internal sealed class Nature(ulong seed)
{
    private readonly double lotSpread = Draws.At(seed, What.Spread, 1).FirstBetween(0.1, 0.4);
    private readonly double lotShift = Draws.At(seed, What.Spread, 2).FirstBetween(0.1, 0.4);
    private readonly double batchShift = Draws.At(seed, What.Spread, 3).FirstBetween(0.3, 1);
    private readonly double reedSpread = Draws.At(seed, What.Spread, 4).FirstBetween(0.7, 1.6);
    private readonly double modelSpread = Draws.At(seed, What.Spread, 5).FirstBetween(0, 0.3);

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

    private double RedoChance(Step step) => Draws.At(seed, What.Step, Key(step.Name), 2).FirstBetween(0, 0.08);

    /// <summary>The share of one batch at one step: its trays, and the blanks that come again, share it.</summary>
    private double Survival(TrayAddress tray, Step step)
    {
        var name = Key(step.Name);
        var usual = Draws.At(seed, What.Step, name, 0).FirstBetween(0.8, 0.99);
        var clumping = Draws.At(seed, What.Step, name, 1).FirstBetween(0.01, 0.06);
        var logit =
            Math.Log(usual / (1 - usual))
            + (modelSpread * Draws.At(seed, What.ModelStep, Key(tray.Model), name).FirstNormal())
            + (lotSpread * Draws.At(seed, What.Lot, Key(tray.Lot), 0).FirstNormal());
        var dice = Draws.At(seed, What.BatchStep, tray.Batch, name);
        return dice.Beta(1 / (1 + Math.Exp(-logit)), clumping);
    }

    /// <summary>By how many quarters the reeds of a batch come out harder than their aim.</summary>
    private double Shift(TrayAddress tray) =>
        Draws.At(seed, What.ModelStep, Key(tray.Model)).FirstBetween(-1, 1)
        + (lotShift * Draws.At(seed, What.Lot, Key(tray.Lot), 1).FirstNormal())
        + (batchShift * Draws.At(seed, What.Batch, tray.Batch).FirstNormal());

    private static Strength Sorted(double quarters, int between) =>
        Strength.OfQuarters(
            Math.Clamp(between * (int)Math.Round(quarters / between), Strength.LeastQuarters, Strength.MostQuarters)
        );

    /// <summary>A number for a name, the same on every machine.</summary>
    private static ulong Key(string name) => name.Aggregate(0UL, (key, letter) => Draws.Mixed(key, letter));
}
