using System.Globalization;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Forecasting;

/// <summary>
/// All that the draws of one forecast share: the trays of the shop, those that may come from them when blanks are worked
/// again, and extra batches of a few sizes for reeds that turn out missing. The last two take evenings in a draw only
/// when they are there.
/// </summary>
internal sealed class ForecastBook
{
    /// <summary>Steps at which so few are worked again add nothing but work for the draws.</summary>
    private const double LeastRedo = 0.002;

    private readonly ShopState state;
    private readonly List<Walker> walkers = [];
    private readonly List<WorkBatch> batches = [];
    private readonly List<YieldEstimate> estimates = [];
    private readonly List<ulong> addresses = [];
    private readonly Dictionary<(string Model, string Lot), int> known = [];
    private readonly Dictionary<string, int> roots = new(StringComparer.Ordinal);

    public ForecastBook(ShopState state)
    {
        this.state = state;
        foreach (var (tray, work) in state.Trays.Zip(state.Work.Batches))
        {
            Add(tray, work, RootOf(tray.Root));
        }

        Standing = walkers.Count;
        Again = [.. Enumerable.Range(0, Standing).Select(AddSoakedAgain)];
        for (var number = 0; number < Standing; number++)
        {
            AddWorkedAgain(number);
        }

        Extras = [.. ExtraSizes.Of(state).Select(AddExtra)];
        Walkers = [.. walkers];
        Work = state.Work with { Batches = batches };
    }

    public Workload Work { get; }

    public ShopState State => state;

    /// <summary>In the order of the workload: those that stand first.</summary>
    public Walker[] Walkers { get; }

    /// <summary>How many of them are there from the first day.</summary>
    public int Standing { get; }

    /// <summary>
    /// By standing walker, the one that takes its place where it lay past its most nights: it is soaked and dried once
    /// more. -1 where it cannot lie too long.
    /// </summary>
    public int[] Again { get; }

    public ExtraBatch[] Extras { get; }

    /// <summary>Numbers of the batches that trays were split from; extra batches have none.</summary>
    public IReadOnlyDictionary<string, int> Roots => roots;

    /// <summary>What is known of each model and lot.</summary>
    public IReadOnlyList<YieldEstimate> Estimates => estimates;

    public IReadOnlyList<ulong> AddressesOfLots => addresses;

    private int RootOf(string root)
    {
        if (!roots.TryGetValue(root, out var number))
        {
            number = roots.Count;
            roots.Add(root, number);
        }

        return number;
    }

    private int Add(OpenTray tray, WorkBatch work, int root)
    {
        var lot = (tray.Model, tray.CaneLot ?? "");
        if (!known.TryGetValue(lot, out var estimate))
        {
            estimate = estimates.Count;
            estimates.Add(state.Models[tray.Model].Yields(tray.CaneLot));
            addresses.Add(Chances.Address($"{tray.Model}, lot {tray.CaneLot}"));
            known.Add(lot, estimate);
        }

        batches.Add(work);
        var counts = tray.Sittings.Select((_, k) => Counts(tray, k, estimates[estimate])).ToArray();
        walkers.Add(new Walker(Chances.Address(tray.Id), tray, root, estimate, estimates[estimate], counts));
        return walkers.Count - 1;
    }

    /// <summary>Blanks are counted when the last part of a sitting is done.</summary>
    private CountedStep[] Counts(OpenTray tray, int k, YieldEstimate yields)
    {
        var sitting = tray.Sittings[k];
        var isDone = k == tray.Sittings.Count - 1 || tray.Sittings[k + 1].FirstStep > sitting.FirstStep;
        var route = state.Models[tray.Model].Route;
        return isDone && tray.Aim is not null
            ?
            [
                .. Enumerable
                    .Range(sitting.FirstStep, sitting.LastStep - sitting.FirstStep + 1)
                    .Where(step => step >= tray.NextStep && route[step].Check != Check.None)
                    .Select(step => new CountedStep(
                        step,
                        yields.Step(route[step].Name),
                        -1,
                        route[step].Check == Check.Graded
                    )),
            ]
            : [];
    }

    private int AddSoakedAgain(int number)
    {
        var (tray, route) = (walkers[number].Tray, state.Models[walkers[number].Tray.Model].Route);
        return batches[number].LatestStart is null || tray.NextStep < 2
            ? -1
            : AddFrom(number, route.RepeatStep(tray.NextStep), tray.NextStep, tray.Blanks, "soaked again");
    }

    /// <summary>One walker for each step at which some blanks of a tray may have to be worked again.</summary>
    private void AddWorkedAgain(int number)
    {
        var walker = walkers[number];
        var route = state.Models[walker.Tray.Model].Route;
        foreach (var counts in walker.Counts)
        {
            for (var c = 0; c < counts.Length; c++)
            {
                var (step, redo) = (counts[c].Number, counts[c].Yield.RedoChance);
                if (redo >= LeastRedo && !counts[c].IsGraded)
                {
                    var usual = 1 + (int)Math.Ceiling(redo * walker.Tray.Blanks);
                    var name = string.Create(CultureInfo.InvariantCulture, $"again {step}");
                    var again = AddFrom(
                        number,
                        route.RedoStep(step),
                        step + 1,
                        Math.Min(usual, walker.Tray.Blanks),
                        name
                    );
                    counts[c] = counts[c] with { Again = again };
                }
            }
        }
    }

    /// <summary>Blanks of a tray that go back to a step; what was counted before <paramref name="next"/> is not counted again.</summary>
    private int AddFrom(int number, int step, int next, int blanks, string name)
    {
        var walker = walkers[number];
        var route = state.Models[walker.Tray.Model].Route;
        var sittings = BatchWork.Sittings(route, step, walker.Tray.Sittings[^1].LastStep, blanks, UsualMinutes);
        var tray = walker.Tray with
        {
            Id = $"{walker.Tray.Id} {name}",
            NextStep = next,
            Blanks = blanks,
            Sittings = sittings,
        };
        return Add(tray, WorkOf(tray, batches[number].DueDay), walker.Root);
    }

    private int UsualMinutes => state.Bench.UsualMinutes(state.Today);

    private static WorkBatch WorkOf(OpenTray tray, int? due) =>
        new(tray.Id, tray.Blanks, 0, due, [.. tray.Sittings.Select(sitting => sitting.Work)]);

    private ExtraBatch AddExtra(ExtraSize size)
    {
        var route = state.Models[size.Model].Route;
        var sittings = BatchWork.Sittings(route, size.Source.FirstStep, route.Steps.Count, size.Blanks, UsualMinutes);
        var tray = new OpenTray(
            size.Name,
            size.Name,
            size.Model,
            size.Strength,
            size.Source.Lot,
            size.Source.FirstStep,
            size.Blanks,
            sittings
        );
        var number = Add(tray, WorkOf(tray, null), RootOf(size.Name));
        return new ExtraBatch(number, size.Model, size.Covers, size.Source.NotBeforeDay);
    }
}
