namespace ReedShop.Platform.Http;

/// <summary>A page of a list; <paramref name="Next"/> goes into `after` for the following one, and is missing at the end.</summary>
public sealed record ListPage<T>(IReadOnlyList<T> Items, int? Next);

public static class Paging
{
    public const int UsualLimit = 50;
    public const int MostLimit = 500;

    public static int Bounded(int limit) => Math.Clamp(limit, 1, MostLimit);

    /// <summary>Pages by a number that falls from item to item.</summary>
    public static ListPage<TView> Page<T, TView>(
        IReadOnlyList<T> items,
        int limit,
        Func<T, int> number,
        Func<T, TView> view
    ) => new([.. items.Select(view)], items.Count < limit ? null : number(items[^1]));
}
