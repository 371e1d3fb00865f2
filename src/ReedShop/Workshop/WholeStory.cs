using ReedShop.Planning;
using ReedShop.Planning.Routes;

namespace ReedShop.Workshop;

/// <summary>All there is to tell of a batch, with its trays: what its page shows.</summary>
/// <param name="Thread">The way of this tray, also of the batch before it was split off.</param>
/// <param name="Tallies">Of all trays together.</param>
/// <param name="Unit">What the maker's gauge reads now; what it read in another unit is told in this one.</param>
public sealed record WholeStory(
    BatchStory Story,
    string ModelName,
    IReadOnlyList<Batch> Trays,
    IReadOnlyList<ThreadDay> Thread,
    IReadOnlyList<StepTally> Tallies,
    IReadOnlyList<StepReadings> Readings,
    IReadOnlyList<GradesView> Grades,
    IReadOnlyList<ToldView> Told,
    IReadOnlyList<ChangeView> Changes,
    LengthUnit Unit
);

/// <summary>A day on the thread of a batch, and the nights until the next one.</summary>
/// <param name="Blanks">That lie on the rack in those nights.</param>
/// <param name="Damp">Nights of these that left them damp.</param>
public sealed record ThreadDay(
    DateOnly Date,
    IReadOnlyList<StepRecordView> Done,
    IReadOnlyList<SittingView> Planned,
    int Nights,
    int Blanks,
    int Damp
);

/// <summary>What became of the blanks at one step. A blank that was worked again counts each time.</summary>
public sealed record StepTally(string Step, int Kept, int Again, IReadOnlyList<RejectCount> Rejected)
{
    public int RejectedCount => Rejected.Sum(reject => reject.Count);

    public int Worked => Kept + Again + RejectedCount;
}

/// <summary>What a gauge read after one step, and what it should.</summary>
public sealed record StepReadings(string Step, IReadOnlyList<Thickness> Readings, Measure? Wanted);

/// <summary>A letter about an order that the batch is made for.</summary>
/// <param name="To">The buyer or the maker.</param>
public sealed record ToldView(DateTime At, int Order, string To, string Title, bool Sent);

/// <summary>What was changed at the batch, by whom.</summary>
/// <param name="At">The shop's local time.</param>
public sealed record ChangeView(DateTime At, string Batch, string Who, string What);
