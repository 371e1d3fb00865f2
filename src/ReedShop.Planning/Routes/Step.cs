namespace ReedShop.Planning.Routes;

/// <summary>What must be laid out before a step: a plate, a paper, a tool. Paid once a day by all that share the key.</summary>
public sealed record SetUp(string Key, int Minutes);

/// <summary>What follows a step before the next may start.</summary>
public abstract record Follow
{
    private Follow() { }

    /// <summary>The next step may start at once.</summary>
    public sealed record StraightOn : Follow;

    /// <summary>The blanks lie in water; the maker's hands are free.</summary>
    public sealed record Soak(int Minutes) : Follow;

    /// <summary>
    /// The blanks lie on the rack. A night counts when <paramref name="LeastHours"/> have passed.
    /// <paramref name="MostNights"/> is null where the blanks may rest as long as the maker likes.
    /// </summary>
    public sealed record Dry(int Nights, int LeastHours, int? MostNights) : Follow;
}

public enum Check
{
    /// <summary>Nothing is counted: all blanks go on.</summary>
    None,

    /// <summary>Kept, again and rejected are counted after the step.</summary>
    Counted,

    /// <summary>Finished reeds are sorted into strengths: the last step of a finishing leg.</summary>
    Graded,
}

/// <summary>One bench step.</summary>
/// <param name="Name">The word the maker uses, unique within the route; histories are imported by it.</param>
/// <param name="SecondsPerBlank">Hands-on seconds for one blank.</param>
/// <param name="MostPerDay">The most blanks in one day, where lips or hands tire.</param>
/// <param name="RedoFrom">The step at which a blank that must be worked again goes back in; null for this step itself.</param>
/// <param name="Measure">What its blanks measure afterwards, where the maker takes a gauge to them.</param>
/// <param name="Caution">What to mind while doing it: dust, blades, water.</param>
public sealed record Step(
    string Name,
    SetUp SetUp,
    int SecondsPerBlank,
    Follow Then,
    Check Check = Check.None,
    int? MostPerDay = null,
    string? RedoFrom = null,
    string? Caution = null,
    Measure? Measure = null
)
{
    /// <summary>Hands-on minutes for so many blanks, without the set-up, rounded up.</summary>
    public int HandsOnMinutes(int blanks) => ((SecondsPerBlank * blanks) + 59) / 60;
}
