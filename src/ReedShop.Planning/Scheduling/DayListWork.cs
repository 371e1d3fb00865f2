using ReedShop.Planning.Routes;

namespace ReedShop.Planning.Scheduling;

/// <summary>What a sitting brings to the bench today: so many blanks at each of its first steps.</summary>
/// <param name="Blanks">Never rising, never 0; steps that no blank reaches are left out.</param>
internal sealed record DayListWork(DaySitting Sitting, IReadOnlyList<int> Blanks)
{
    public int Ready { get; } = Sitting.NotBefore is { } time ? DayListHours.MinuteFrom(time) : 0;

    public int LastStep => Blanks.Count - 1;

    public IEnumerable<SetUp> SetUps => Sitting.Steps.Take(Blanks.Count).Select(step => step.SetUp);

    public Step this[int step] => Sitting.Steps[step];

    /// <summary>Minutes in the water after a step, before the next may start.</summary>
    public int SoakMinutes(int step) => this[step].Then is Follow.Soak soak ? soak.Minutes : 0;
}

/// <summary>One step of one work, without a break, until it is done or the stretch closes.</summary>
/// <param name="Rank">Place of the work in the priority order, from 0.</param>
internal sealed record DayListMove(DayListWork Work, int Rank, int Step, int Start, int SetUpMinutes, int Blanks)
{
    public int End { get; } = Start + SetUpMinutes + Work[Step].HandsOnMinutes(Blanks);

    public string Key => Work[Step].SetUp.Key;

    /// <summary>Minutes of soaking and work that lie between the move and the end of its work.</summary>
    public int RoadAhead =>
        Enumerable
            .Range(Step, Work.LastStep - Step)
            .Sum(step => Work.SoakMinutes(step) + Work[step + 1].HandsOnMinutes(Work.Blanks[step + 1]));

    public DayLine ToLine() =>
        new(
            Work.Sitting.Batch,
            Work.Sitting.FirstStep + Step,
            Work[Step].Name,
            DayListHours.TimeOf(Start),
            DayListHours.TimeOf(End),
            Blanks,
            SetUpMinutes,
            Work[Step].Then is Follow.Soak soak ? DayListHours.TimeOf(End + soak.Minutes) : null,
            Work[Step].Caution
        );
}
