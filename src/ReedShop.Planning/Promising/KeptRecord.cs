namespace ReedShop.Planning.Promising;

/// <summary>A promise whose day has passed.</summary>
/// <param name="Chance">That was told with it.</param>
/// <param name="Shipped">Null while the parcel has not left.</param>
/// <param name="CameShort">Reeds were missing on the way, and others had to be made.</param>
/// <param name="WasGivenUp">The date was given up before it came, which is no way to keep it.</param>
public sealed record PassedPromise(
    DateOnly ShipBy,
    double Chance,
    DateOnly? Shipped,
    bool CameShort,
    bool WasGivenUp = false
)
{
    public bool IsKept => Shipped <= ShipBy && !WasGivenUp;
}

/// <summary>Promises of which about as many should have been kept.</summary>
/// <param name="Stated">Mean of the chances that were told; null where there are none.</param>
/// <param name="DaysLate">Mean of those that left late; null where none did.</param>
/// <param name="LateAndShort">Of those not kept, how many came short of reeds; the others lost nights or evenings.</param>
public sealed record KeptGroup(double? Stated, ShareInterval Kept, double? DaysLate, int LateAndShort)
{
    /// <summary>Whether what was told lies within what chance allows.</summary>
    public bool AgreesWithStated => Stated is not { } stated || (Kept.Low <= stated && stated <= Kept.High);

    internal static KeptGroup Of(IReadOnlyCollection<PassedPromise> promises)
    {
        var late = promises.Where(promise => !promise.IsKept).ToArray();
        var left = late.Where(promise => promise.Shipped is not null).ToArray();
        return new KeptGroup(
            promises.Count == 0 ? null : promises.Average(promise => promise.Chance),
            new ShareInterval(promises.Count - late.Length, promises.Count),
            left.Length == 0
                ? null
                : left.Average(promise => Math.Max(0, promise.Shipped!.Value.DayNumber - promise.ShipBy.DayNumber)),
            late.Count(promise => promise.CameShort)
        );
    }
}

/// <summary>How often promises were kept, against how often they were said to be.</summary>
/// <param name="ByChance">By the chance that was told, from the boldest; the number is its lower end.</param>
/// <param name="ByMonth">By the month of the promised day, oldest first.</param>
public sealed record KeptRecord(
    KeptGroup All,
    IReadOnlyList<(double From, KeptGroup Group)> ByChance,
    IReadOnlyList<(DateOnly Month, KeptGroup Group)> ByMonth
)
{
    /// <summary>Lower ends of the groups of chances.</summary>
    private static readonly double[] Ends = [0, 0.7, 0.85, 0.93];

    public static KeptRecord Of(IReadOnlyCollection<PassedPromise> promises) =>
        new(
            KeptGroup.Of(promises),
            [
                .. promises
                    .GroupBy(promise => Ends.Last(end => end <= promise.Chance))
                    .OrderBy(group => group.Key)
                    .Select(group => (group.Key, KeptGroup.Of([.. group]))),
            ],
            [
                .. promises
                    .GroupBy(promise => new DateOnly(promise.ShipBy.Year, promise.ShipBy.Month, 1))
                    .OrderBy(group => group.Key)
                    .Select(group => (group.Key, KeptGroup.Of([.. group]))),
            ]
        );
}
