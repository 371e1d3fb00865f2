using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>Where a batch stands.</summary>
public enum BatchStage
{
    Planned,
    OnBench,
    Shelved,
    Graded,

    /// <summary>No blank is left: all were rejected, split off, sent again or merged into another tray.</summary>
    Emptied,

    /// <summary>Called off before its first step.</summary>
    CalledOff,
}

/// <summary>
/// Blanks of one model that walk the route together. A tray split off keeps the root of the batch it came from, whose
/// pegs and yields it shares.
/// </summary>
public sealed class Batch
{
    public required string Id { get; init; }

    /// <summary>Number of the batch, shared by its trays.</summary>
    public required int Run { get; init; }

    /// <summary>What is written on the tray: "14", and "14a" for a tray split off it.</summary>
    public required string Number { get; init; }

    /// <summary>The batch all its trays descend from; its own id for that one.</summary>
    public required string Root { get; init; }

    public required string Model { get; init; }

    public string? CaneLot { get; set; }

    /// <summary>The strength it is worked toward; none for a preparation run.</summary>
    public Strength? Aim { get; set; }

    public required int FirstStep { get; init; }

    /// <summary>The last step it walks: the last preparation step for a run that ends on the shelf.</summary>
    public required int LastStep { get; init; }

    /// <summary>The step to be recorded next, counted over the whole route from 1.</summary>
    public int NextStep { get; set; }

    /// <summary>Blanks started, or split off, with this number.</summary>
    public required int Started { get; set; }

    /// <summary>Blanks alive now.</summary>
    public int Blanks { get; set; }

    /// <summary>The step at which these blanks failed and were sent back; none for blanks that never failed.</summary>
    public int? RedoOf { get; set; }

    public BatchStage Stage { get; set; }

    public required DateOnly PlannedOn { get; init; }

    /// <summary>First day its first step may be done, when it waits for cane to season.</summary>
    public DateOnly? NotBefore { get; set; }

    public DateOnly? LastWorkedOn { get; set; }

    /// <summary>When the last step ended: the hour minimum of a night counts from here.</summary>
    public DateTime? LastEndedUtc { get; set; }

    /// <summary>Nights added since the last step because the blanks were still damp.</summary>
    public int DampNights { get; set; }

    public int Version { get; set; }

    public bool IsOpen => Stage is BatchStage.Planned or BatchStage.OnBench;
}

/// <summary>Blanks rejected for one reason.</summary>
public sealed record RejectCount(string Reason, int Count)
{
    /// <summary>The reasons of the trade, as the maker taps them.</summary>
    public static IReadOnlyList<string> Reasons { get; } =
    ["thin", "warp", "crack", "node", "uneven", "torn tip", "mould", "died in play-in"];
}

/// <summary>One step as it was done.</summary>
public sealed class StepRecord
{
    public long Id { get; init; }

    public required string BatchId { get; init; }

    public required string Root { get; init; }

    public required int Step { get; init; }

    public required DateOnly Day { get; init; }

    public required DateTime EndedUtc { get; init; }

    public required int In { get; set; }

    public required int Passed { get; set; }

    public required int Redo { get; set; }

    /// <summary>Blanks that did not get their turn and wait for the next evening as a tray of their own.</summary>
    public required int Carried { get; set; }

    public required IReadOnlyList<RejectCount> Rejected { get; set; }

    public int? Minutes { get; set; }

    /// <summary>What a gauge read on some of its blanks.</summary>
    public IReadOnlyList<Thickness> Measured { get; set; } = [];

    /// <summary>Hands-on minutes the route expects for the blanks worked, for makers who note none.</summary>
    public required int UsualMinutes { get; init; }

    /// <summary>Nobody worked: all its blanks were sent again because they had lain past their most nights.</summary>
    public bool SentAgain { get; init; }

    /// <summary>The helper who did it, by the plan; none for the maker.</summary>
    public string? Helper { get; init; }

    /// <summary>Trays this step made: blanks to be worked again, and blanks carried to another evening.</summary>
    public required IReadOnlyList<string> Trays { get; init; }

    /// <summary>Copied from the tray, so that yields count a blank that walks again only once.</summary>
    public int? RedoOf { get; init; }

    /// <summary>What the batch looked like before, for undo.</summary>
    public required BatchBefore Before { get; init; }

    public int WorkedMinutes => Minutes ?? UsualMinutes;

    /// <summary>Blanks that had their turn.</summary>
    public int Worked => SentAgain ? 0 : In - Carried;

    public int RejectedCount => Rejected.Sum(reject => reject.Count);
}

/// <summary>The part of a batch that recording a step changes.</summary>
public sealed record BatchBefore(
    BatchStage Stage,
    int NextStep,
    int Blanks,
    DateOnly? LastWorkedOn,
    DateTime? LastEndedUtc,
    int DampNights,
    int? RedoOf
);

/// <summary>A night that left a batch damp.</summary>
public sealed class DampNight
{
    public required string BatchId { get; init; }

    public required DateOnly Date { get; init; }
}

/// <summary>Finished reeds of one batch sorted into strengths, provisionally off the profile or finally.</summary>
public sealed class GradeRecord
{
    public long Id { get; init; }

    public required string BatchId { get; init; }

    public required string Root { get; init; }

    public required string Model { get; init; }

    public string? CaneLot { get; init; }

    public required Strength Aim { get; init; }

    public required DateOnly Day { get; init; }

    public required bool Final { get; init; }

    public required IReadOnlyList<GradeCount> Grades { get; init; }
}

public sealed record GradeCount(Strength Strength, int Count);
