using ReedShop.Planning.Promising;

namespace ReedShop.Lab.Trials;

/// <summary>
/// Until a day comes that parts them, all runs of a shop are one. What the first was answered till then is kept for the
/// others, because finding answers takes nearly all the time of a trial.
/// </summary>
/// <param name="before">The day that parts them.</param>
internal sealed class KnownAnswers(DateOnly before)
{
    private readonly List<(PromiseAnswer Answer, int Reads)> answers = [];

    /// <summary>Null where none is known.</summary>
    /// <param name="number">Of the question, from 0.</param>
    /// <returns>Also how often the yields had been read by then: later estimates hang on when they were read last.</returns>
    public (PromiseAnswer Answer, int Reads)? Find(int number, DateOnly today) =>
        today < before && number < answers.Count ? answers[number] : null;

    public void Keep(PromiseAnswer answer, int reads, DateOnly today)
    {
        if (today < before)
        {
            answers.Add((answer, reads));
        }
    }
}
