using static ReedShop.Lab.Trials.TrialReport;

namespace ReedShop.Lab.Trials;

/// <summary>How long a span is. Months hold few promises, and quarters say little of how soon.</summary>
internal sealed record SpanKind(string Name, int Days)
{
    public static SpanKind Month { get; } = new("month", 30);

    public static SpanKind Quarter { get; } = new("quarter", 90);
}

/// <summary>Promises whose day falls in one month or quarter from a shock on, with it and without.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Interval">Of kept less kept without, by bootstrap over shops.</param>
internal sealed record ShockSpan(
    SpanKind Kind,
    int Number,
    TrialPromise[] Promises,
    TrialPromise[] Without,
    (double Low, double High) Interval
)
{
    /// <summary>Of fewer a single promise moves the share by more than the two points that are asked about.</summary>
    public const int FewPromises = 50;

    public bool SaysLittle => Promises.Length < FewPromises || Without.Length < FewPromises;

    /// <summary>By how much of one fewer are kept; not a number where there are none.</summary>
    public double Fall => KeptOf(Without) - KeptOf(Promises);

    public string Row =>
        $"{Number},{Share(Promises, promise => promise.Chance)},{Share(Promises, IsKept)},{Share(Without, IsKept)},{Bound(Interval.Low)},{Bound(Interval.High)},{Promises.Length},{Without.Length}";

    /// <summary>As many whole spans as the trial lasts.</summary>
    public static IReadOnlyList<ShockSpan> Of(
        TrialPlan plan,
        Shock shock,
        SpanKind kind,
        TrialResult[] shops,
        TrialResult[] without
    ) =>
        [
            .. Enumerable
                .Range(1, (plan.Days - shock.Day) / kind.Days)
                .Select(number =>
                    Of(kind, number, shock.Day + ((number - 1) * kind.Days), shops, without, (ulong)plan.Seed)
                ),
        ];

    private static ShockSpan Of(
        SpanKind kind,
        int number,
        int first,
        TrialResult[] shops,
        TrialResult[] without,
        ulong seed
    )
    {
        var (own, others) = (Chosen(shops), Chosen(without));
        return new ShockSpan(
            kind,
            number,
            [.. own.SelectMany(shop => shop)],
            [.. others.SelectMany(shop => shop)],
            Bootstrap.OfChange(own, others, seed)
        );

        TrialPromise[][] Chosen(TrialResult[] run) =>
            [
                .. run.Select(shop =>
                    shop.Promises.Where(promise =>
                            promise.PromisedDay >= first && promise.PromisedDay < first + kind.Days
                        )
                        .ToArray()
                ),
            ];
    }

    private static double IsKept(TrialPromise promise) => promise.Kept ? 1 : 0;

    private static double KeptOf(TrialPromise[] promises) =>
        promises.Length == 0 ? double.NaN : promises.Average(IsKept);

    private static string Share(TrialPromise[] promises, Func<TrialPromise, double> of) =>
        promises.Length == 0 ? "" : Text($"{promises.Average(of):0.000}");

    private static string Bound(double bound) => double.IsNaN(bound) ? "" : Text($"{bound:0.000}");
}
