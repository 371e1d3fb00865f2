namespace ReedShop.Platform;

/// <summary>Keeps the last answer for the next request, as long as what it was made from is the same.</summary>
public sealed class LastAnswer<TKey, TAnswer>
    where TKey : class
    where TAnswer : class
{
    private volatile Tuple<TKey, TAnswer>? last;

    public TAnswer? Find(TKey key) => last is { } kept && kept.Item1.Equals(key) ? kept.Item2 : null;

    public TAnswer Keep(TKey key, TAnswer answer)
    {
        last = Tuple.Create(key, answer);
        return answer;
    }
}
