using ReedShop.Planning.Promising;

namespace ReedShop.Lab.Trials;

/// <summary>
/// The one place where a trial asks for promises. All else, from the plan to the make-up batches, is the same for every
/// way of promising.
/// </summary>
internal interface IPromising
{
    PromiseAnswer Promise(PromiseRequest request);

    /// <summary>For reeds that came up short: by the day promised, or as early as can be.</summary>
    Promise? MakeUp(PromiseRequest request, DateOnly shipBy);

    /// <summary>Brings the due days of open orders up to the facts.</summary>
    void RenewDueDays();
}

/// <summary>A way of promising, by name.</summary>
internal sealed record Rule(string Name, Func<Book, IPromising> Over)
{
    public static Rule Program { get; } = new("the program", book => new ProgramPromising(book));

    public static IReadOnlyList<Rule> All { get; } =
    [
        Program,
        new("always 21 days", book => new PlainPromising(book, HalfAsMuchAgain, 21)),
        new("half as much again, earliest days", book => new PlainPromising(book, HalfAsMuchAgain, null)),
        new("by mean yield, earliest days", book => new PlainPromising(book, ByMeanYield, null)),
    ];

    private static int HalfAsMuchAgain(Book book, PromiseRequest request, int reeds) => (3 * reeds + 1) / 2;

    /// <summary>What of the blanks of finished batches came out on the strengths that serve.</summary>
    private static int ByMeanYield(Book book, PromiseRequest request, int reeds)
    {
        const int fewBatches = 3;
        const double soberYield = 0.5;
        var finished = book.Batches.Where(batch => batch.Alive == 0).ToArray();
        var serving = finished.Sum(batch =>
            batch
                .Landed.Where(reed => Math.Abs(reed.Key.Quarters - batch.Aim.Quarters) <= 2 * request.Neighbours)
                .Sum(reed => reed.Value)
        );
        var mean = (double)serving / Math.Max(1, finished.Sum(batch => batch.Started));
        return (int)Math.Ceiling(reeds / (finished.Length < fewBatches || serving == 0 ? soberYield : mean));
    }
}
