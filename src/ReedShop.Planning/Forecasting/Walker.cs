using ReedShop.Planning.Promising;
using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Forecasting;

/// <summary>A step at which blanks are counted.</summary>
/// <param name="Number">Within the route, from 1.</param>
/// <param name="Again">The walker that takes over the blanks worked again; -1 where they go on with the others.</param>
internal sealed record CountedStep(int Number, StepYield Yield, int Again, bool IsGraded);

/// <summary>Blanks that walk the route together in a draw: a tray, one for blanks worked again, or an extra batch.</summary>
/// <param name="Counts">By sitting, what is counted at its end.</param>
/// <param name="Known">Number of the estimate that says how its blanks fare.</param>
internal sealed record Walker(
    ulong Address,
    OpenTray Tray,
    int Root,
    int Known,
    YieldEstimate Yields,
    CountedStep[][] Counts
);

/// <summary>An extra batch that may be started when reeds are missing.</summary>
/// <param name="Number">Of its walker.</param>
/// <param name="Covers">The most missing reeds it is large enough for.</param>
/// <param name="NotBefore">First day its cane is seasoned.</param>
internal sealed record ExtraBatch(int Number, string Model, int Covers, int NotBefore);
