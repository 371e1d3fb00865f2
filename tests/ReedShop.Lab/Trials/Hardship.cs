using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab.Trials;

/// <summary>From where to where the truth of a shop is drawn, each evenly.</summary>
internal readonly record struct Range(double Low, double High)
{
    public static implicit operator Range(double only) => new(only, only);

    public double In(Dice dice) => dice.FirstBetween(Low, High);
}

/// <summary>How hard the truth is on a bench. The figures are choices of ours, with no source.</summary>
internal sealed record Hardship
{
    public static Hardship Usual { get; } = new();

    /// <summary>Nothing ever goes wrong: each promise must be kept, or the trial itself is wrong.</summary>
    public static Hardship None { get; } =
        new()
        {
            Survival = 1,
            Again = 0,
            Clumping = 0.01,
            Bias = 0,
            LotShift = 0,
            BatchShift = 0,
            ReedSpread = 0,
            LotSpread = 0,
            ModelSpread = 0,
            Lost = 0,
            Slow = 0,
            WetBegins = 0,
            Illnesses = 0,
        };

    /// <summary>Usual survival of a step.</summary>
    public Range Survival { get; init; } = new(0.8, 0.99);

    /// <summary>Overdispersion between batches, of the beta-binomial law.</summary>
    public Range Clumping { get; init; } = new(0.01, 0.06);

    /// <summary>Chance that a blank must be worked again where a step allows it.</summary>
    public Range Again { get; init; } = new(0, 0.08);

    /// <summary>Standard deviation between lots, in logits, shared by all steps of a lot.</summary>
    public Range LotSpread { get; init; } = new(0.1, 0.4);

    /// <summary>The same between models at one step.</summary>
    public Range ModelSpread { get; init; } = new(0, 0.3);

    /// <summary>Quarters by which the reeds of a model come out harder than their aim.</summary>
    public Range Bias { get; init; } = new(-1, 1);

    /// <summary>Standard deviations between lots, between batches, and between the reeds of a batch, in quarters.</summary>
    public Range LotShift { get; init; } = new(0.1, 0.4);

    public Range BatchShift { get; init; } = new(0.3, 1);

    public Range ReedSpread { get; init; } = new(0.7, 1.6);

    /// <summary>Chance that an evening is lost, and that it is slow and offers 60 to 90 % of its minutes.</summary>
    public Range Lost { get; init; } = new(0.02, 0.12);

    public Range Slow { get; init; } = new(0.05, 0.2);

    /// <summary>Weeks a year that the maker lies ill.</summary>
    public Range Illnesses { get; init; } = 1;

    /// <summary>Chance that a wet spell begins, and that it stays another night.</summary>
    public Range WetBegins { get; init; } = new(0.02, 0.08);

    public Range WetStays { get; init; } = new(0.3, 0.7);

    /// <summary>Without evenings lost, slow or ill, or without damp nights: what remains is due to the others.</summary>
    public Hardship Without(string what) =>
        what switch
        {
            "evenings" => this with { Lost = 0, Slow = 0, Illnesses = 0 },
            "damp" => this with { WetBegins = 0 },
            _ => throw new ArgumentOutOfRangeException(nameof(what), what, "evenings or damp"),
        };
}
