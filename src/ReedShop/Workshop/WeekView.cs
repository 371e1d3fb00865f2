using ReedShop.Catalogue;
using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>A sitting of the plan.</summary>
/// <param name="Minutes">Hands-on minutes, without the set-ups that the day's work shares.</param>
/// <param name="Helper">Whose sitting it is; missing where it is the maker's.</param>
/// <param name="Again">The blanks will have lain past their most nights: they are soaked and dried once more.</param>
public sealed record SittingView(
    string Id,
    string Batch,
    string BatchNumber,
    string Model,
    Strength? Aim,
    DateOnly Date,
    IReadOnlyList<string> Steps,
    int FirstStep,
    int Part,
    int Blanks,
    int Minutes,
    bool Pinned,
    bool Again,
    string? Helper = null
)
{
    public static SittingView Of(PlannedSitting sitting, Batch batch, ReedModel model, string? helper) =>
        new(
            sitting.Id,
            batch.Id,
            batch.Number,
            batch.Model,
            batch.Aim,
            sitting.Day,
            [
                .. model
                    .Route.Steps.Skip(sitting.FirstStep - 1)
                    .Take(sitting.LastStep - sitting.FirstStep + 1)
                    .Select(step => step.Name),
            ],
            sitting.FirstStep,
            sitting.Part,
            sitting.Blanks,
            sitting.Minutes,
            sitting.Pinned,
            Overlong.IsAgain(sitting, batch),
            helper
        );
}

/// <summary>A step already done on a day of the week.</summary>
public sealed record DoneView(
    string Batch,
    string BatchNumber,
    string Step,
    int In,
    int Kept,
    int Again,
    IReadOnlyList<RejectCount> Rejected,
    int? Minutes
);

/// <summary>Blanks that lie on the rack in the night after a day.</summary>
public sealed record DryingView(string Batch, string BatchNumber, int Blanks);

/// <summary>One day and the night after it.</summary>
/// <param name="OpenMinutes">Of the maker and the helpers together.</param>
/// <param name="PlannedMinutes">Hands-on minutes and each set-up once for each person who needs it.</param>
public sealed record WeekDay(
    DateOnly Date,
    int OpenMinutes,
    int PlannedMinutes,
    string? Reason,
    IReadOnlyList<SittingView> Sittings,
    IReadOnlyList<DoneView> Done,
    IReadOnlyList<DryingView> Drying
);

/// <summary>A batch of the week with its promise: on time, to watch or late, or none when no order waits for it.</summary>
public sealed record WeekBatch(
    string Batch,
    string Number,
    string Model,
    Strength? Aim,
    int Blanks,
    DateOnly? Finish,
    IReadOnlyList<PegView> MadeFor,
    string? Promise
);

/// <param name="Outdated">The plan is older than the facts and is being brought up to them.</param>
/// <param name="DryingBefore">What lies on the rack in the night before the first day.</param>
/// <param name="Unplaced">Batches for which no days were found.</param>
public sealed record WeekView(
    DateOnly From,
    DateOnly Today,
    int RackBlanks,
    bool Outdated,
    IReadOnlyList<DryingView> DryingBefore,
    IReadOnlyList<WeekDay> Days,
    IReadOnlyList<WeekBatch> Batches,
    IReadOnlyList<string> Unplaced
)
{
    /// <summary>Names of those at the bench beside the maker.</summary>
    public IReadOnlyList<string> Helpers { get; init; } = [];
}
