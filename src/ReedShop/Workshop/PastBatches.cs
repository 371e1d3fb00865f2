using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>A row of an imported history: one step of one past batch.</summary>
public sealed class PastStep
{
    public required string Batch { get; init; }

    public required string Model { get; init; }

    public Strength? Aim { get; init; }

    public required string CaneLot { get; init; }

    public required DateOnly Date { get; init; }

    public required string Step { get; init; }

    public required int In { get; init; }

    public required int Out { get; init; }

    public required int Redo { get; init; }

    public bool SameAs(PastStep other) =>
        (Batch, Model, Aim, CaneLot, Date, Step, In, Out, Redo)
        == (
            other.Batch,
            other.Model,
            other.Aim,
            other.CaneLot,
            other.Date,
            other.Step,
            other.In,
            other.Out,
            other.Redo
        );

    /// <summary>Why both cannot be rows of one batch, or null. The preparation of a batch may have no aim yet.</summary>
    public string? ClashWith(PastStep other) =>
        Model != other.Model ? $"a batch has one model, and batch {Batch} is of model {other.Model}"
        : Aim is { } aim && other.Aim is { } otherAim && aim != otherAim
            ? $"a batch has one aim, and batch {Batch} has aim {otherAim.Value}"
        : null;

    /// <summary>As it would be read in a file.</summary>
    public override string ToString() =>
        FormattableString.Invariant(
            $"aim {Aim?.Value}, lot {CaneLot}, {Date:yyyy-MM-dd}, in {In}, out {Out}, redo {Redo}"
        );
}

/// <summary>A row of an imported history: how many reeds of one past batch came out at one strength.</summary>
public sealed class PastGrade
{
    public required string Batch { get; init; }

    public required Strength Strength { get; init; }

    public required int Count { get; init; }
}
