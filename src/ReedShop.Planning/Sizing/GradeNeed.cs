using System.Collections.Immutable;

namespace ReedShop.Planning.Sizing;

/// <summary>So many reeds, each in one of the accepted strengths.</summary>
public sealed record NeedPart(IReadOnlySet<Strength> Accepted, int Count);

/// <summary>The reeds that a batch must still yield: for several strengths at once, or for one that accepts its neighbours.</summary>
public sealed record GradeNeed
{
    private GradeNeed(IReadOnlyList<NeedPart> parts) => Parts = parts;

    /// <summary>The parts accept different strengths; parts that need nothing are left out.</summary>
    public IReadOnlyList<NeedPart> Parts { get; }

    public int Total => Parts.Sum(part => part.Count);

    /// <summary>All strengths that some part accepts.</summary>
    public IReadOnlySet<Strength> Accepted => Parts.SelectMany(part => part.Accepted).ToImmutableHashSet();

    public static GradeNeed Of(Strength strength, int count) => Any(ImmutableHashSet.Create(strength), count);

    /// <summary>So many of each strength, and no other will do.</summary>
    public static GradeNeed Each(IReadOnlyDictionary<Strength, int> counts) =>
        Of([
            .. counts
                .OrderBy(pair => pair.Key)
                .Select(pair => new NeedPart(ImmutableHashSet.Create(pair.Key), pair.Value)),
        ]);

    /// <summary>So many in all, of whichever accepted strength.</summary>
    public static GradeNeed Any(IReadOnlySet<Strength> accepted, int count) => Of([new NeedPart(accepted, count)]);

    /// <exception cref="ArgumentException">Two parts accept the same strength, or a count is negative.</exception>
    public static GradeNeed Of(IReadOnlyList<NeedPart> parts)
    {
        if (
            parts.Any(part => part.Count < 0)
            || parts.Sum(part => part.Accepted.Count) > parts.SelectMany(part => part.Accepted).Distinct().Count()
        )
        {
            throw new ArgumentException("Parts need a count from 0 and strengths of their own.", nameof(parts));
        }

        return new GradeNeed([.. parts.Where(part => part.Count > 0)]);
    }
}
