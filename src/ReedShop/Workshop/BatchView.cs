using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>A batch or tray as the owner sees it. Steps count the whole route from 1.</summary>
public sealed record BatchView(
    string Id,
    string Number,
    string Root,
    string Model,
    Strength? Aim,
    string? CaneLot,
    BatchStage Stage,
    int Started,
    int Blanks,
    int NextStep,
    string? NextStepName,
    int LastStep,
    DateOnly? LastWorkedOn,
    int DampNights,
    int? RedoOf
)
{
    public static BatchView Of(Batch batch, ReedModel? model) =>
        new(
            batch.Id,
            batch.Number,
            batch.Root,
            batch.Model,
            batch.Aim,
            batch.CaneLot,
            batch.Stage,
            batch.Started,
            batch.Blanks,
            batch.NextStep,
            batch.IsOpen && batch.NextStep <= batch.LastStep ? model?.Route[batch.NextStep].Name : null,
            batch.LastStep,
            batch.LastWorkedOn,
            batch.DampNights,
            batch.RedoOf
        );
}

/// <summary>A step as it was done.</summary>
public sealed record StepRecordView(
    int Step,
    string Name,
    DateOnly Day,
    DateTime EndedAt,
    int In,
    int Passed,
    int Redo,
    int Carried,
    IReadOnlyList<RejectCount> Rejected,
    int? Minutes,
    MeasuredView? Measured = null
)
{
    public static StepRecordView Of(StepRecord record, ReedModel model) =>
        new(
            record.Step,
            model.Route[record.Step].Name,
            record.Day,
            record.EndedUtc,
            record.In,
            record.Passed,
            record.Redo,
            record.Carried,
            record.Rejected,
            record.Minutes,
            MeasuredView.Of(record, model.Route[record.Step].Measure)
        );
}

public sealed record GradesView(DateOnly Day, bool Final, IReadOnlyList<GradeCount> Grades);

/// <summary>A batch with its whole story: its steps, grades, planned days, the orders it is made for and its alarm lines.</summary>
public sealed record BatchStory(
    BatchView Batch,
    IReadOnlyList<StepRecordView> Steps,
    IReadOnlyList<GradesView> Grades,
    IReadOnlyList<SittingView> Planned,
    IReadOnlyList<PegView> MadeFor,
    AlarmsView? Alarms
);

public sealed record PegView(int Order, Strength Strength, int Quantity, DateOnly ShipBy)
{
    public static PegView Of(Peg peg, Order order) => new(order.Number, peg.Strength, peg.Quantity, order.ShipBy);
}

/// <summary>What recording a step led to: the batch now, and trays that came of it.</summary>
public sealed record RecordedView(BatchView Batch, StepRecordView Step, IReadOnlyList<BatchView> Trays);
