using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>A row that cannot be used, and what could be.</summary>
/// <param name="Line">Physical line of the file, the header being 1; where a field spans lines, the first of them.</param>
public sealed record BadRow(int Line, string Reason);

/// <summary>A row that can be used, with the line it stood on.</summary>
public sealed record HistoryRow<T>(int Line, T Value);

/// <summary>Rows that cannot be used, by line. A file of nothing else must not fill the memory: only the first are kept.</summary>
public sealed class BadRows
{
    public const int MostKept = 1_000;

    private readonly List<BadRow> first = [];

    public IReadOnlyList<BadRow> First => first;

    public int Count { get; private set; }

    public void Add(int line, string reason)
    {
        Count++;
        if (first.Count < MostKept)
        {
            first.Add(new BadRow(line, reason));
        }
    }
}

/// <summary>What a file holds: rows to take in their order, and rows that cannot be used.</summary>
public sealed record HistoryRows<T>(IReadOnlyList<HistoryRow<T>> Good, BadRows Bad);

/// <summary>Reads files of past batches: text in, rows and bad rows out.</summary>
public static class HistoryRows
{
    /// <summary>Steps of past batches.</summary>
    /// <param name="models">What the shop sells; a step must be one of its model's route.</param>
    /// <param name="today">No row may be dated later.</param>
    public static Task<Result<HistoryRows<PastStep>>> Steps(
        TextReader text,
        IEnumerable<ReedModel> models,
        DateOnly today
    )
    {
        var rules = new StepRules(models, today);
        return Read(text, HistoryColumns.Steps, rules.Read);
    }

    /// <summary>Grades of past batches.</summary>
    public static Task<Result<HistoryRows<PastGrade>>> Grades(TextReader text)
    {
        var rules = new GradeRules();
        return Read(text, HistoryColumns.Grades, rules.Read);
    }

    private static async Task<Result<HistoryRows<T>>> Read<T>(
        TextReader text,
        HistoryColumns columns,
        Func<int, HistoryFields, T?> read
    )
        where T : class
    {
        var opened = await HistoryCsv.Open(text, columns);
        if (opened.Refusal is { } refusal)
        {
            return refusal;
        }

        using var csv = opened.Value;
        var good = new List<HistoryRow<T>>();
        var bad = new BadRows();
        await foreach (var line in csv.Lines())
        {
            var fields = new HistoryFields(line);
            if (line.Fault is null && read(line.Number, fields) is { } row)
            {
                good.Add(new HistoryRow<T>(line.Number, row));
            }
            else
            {
                bad.Add(line.Number, fields.Fault!);
            }
        }

        return new HistoryRows<T>(good, bad);
    }

    /// <summary>What a row of steps must keep to, alone and beside the rows before it.</summary>
    private sealed class StepRules(IEnumerable<ReedModel> models, DateOnly today)
    {
        private readonly Dictionary<string, ReedModel> models = models.ToDictionary(
            model => model.Key,
            StringComparer.OrdinalIgnoreCase
        );

        private readonly Dictionary<(string Batch, string Step), int> lines = [];
        private readonly Dictionary<string, HistoryRow<PastStep>> firsts = new(StringComparer.Ordinal);
        private readonly Dictionary<string, string> lots = new(StringComparer.Ordinal);

        public PastStep? Read(int line, HistoryFields fields)
        {
            var (model, step) = Place(fields);
            var row = new PastStep
            {
                Batch = fields.Name("batch"),
                Model = model,
                Aim = fields.Strength("aim", mayBeEmpty: true),
                CaneLot = Shared(fields.Name("caneLot", mayBeEmpty: true)),
                Date = fields.Date("date", today),
                Step = step,
                In = fields.Count("in"),
                Out = fields.Count("out"),
                Redo = fields.Count("redo", whenEmpty: 0),
            };
            if (fields.Fault is null)
            {
                CheckCounts(row, fields);
                CheckBatch(row, fields);
            }

            return fields.Fault is null ? Remember(line, row) : null;
        }

        private (string Model, string Step) Place(HistoryFields fields)
        {
            var name = fields.Text("model");
            if (!models.TryGetValue(name, out var model))
            {
                fields.Unknown("model", name, "the shop has", models.Keys.Order(StringComparer.Ordinal));
                return ("", "");
            }

            var step = fields.Text("step");
            if (model.Route.NumberOf(step) is { } number)
            {
                return (model.Key, model.Route[number].Name);
            }

            fields.Unknown(
                "step",
                step,
                $"the steps of {model.Key} are",
                model.Route.Steps.Select(known => known.Name)
            );
            return (model.Key, "");
        }

        private static void CheckCounts(PastStep row, HistoryFields fields)
        {
            if (row.Out > row.In)
            {
                fields.Add($"out is {row.Out}, but only {row.In} came in; write 0 to {row.In}");
            }

            if (row.Redo > row.In)
            {
                fields.Add($"redo is {row.Redo}, but only {row.In} came in; write 0 to {row.In}");
            }
        }

        private void CheckBatch(PastStep row, HistoryFields fields)
        {
            if (lines.TryGetValue((row.Batch, row.Step), out var before))
            {
                fields.Add($"batch {row.Batch} has its step {row.Step} on line {before} already; write it once");
            }
            else if (firsts.TryGetValue(row.Batch, out var first) && row.ClashWith(first.Value) is { } clash)
            {
                fields.Add($"{clash} on line {first.Line}");
            }
        }

        private PastStep Remember(int line, PastStep row)
        {
            lines.Add((row.Batch, row.Step), line);
            if (!firsts.TryGetValue(row.Batch, out var first) || first.Value.Aim is null)
            {
                firsts[row.Batch] = new HistoryRow<PastStep>(line, row);
            }

            return row;
        }

        /// <summary>One text for all rows of a lot: a long file names few.</summary>
        private string Shared(string lot) => lots.TryAdd(lot, lot) ? lot : lots[lot];
    }

    private sealed class GradeRules
    {
        private readonly Dictionary<(string Batch, Strength Strength), int> lines = [];

        public PastGrade? Read(int line, HistoryFields fields)
        {
            var batch = fields.Name("batch");
            var strength = fields.Strength("strength");
            var count = fields.Count("count");
            if (fields.Fault is not null)
            {
                return null;
            }

            if (lines.TryAdd((batch, strength!.Value), line))
            {
                return new PastGrade
                {
                    Batch = batch,
                    Strength = strength.Value,
                    Count = count,
                };
            }

            fields.Add(
                $"batch {batch} has strength {strength} on line {lines[(batch, strength.Value)]} already; write it once"
            );
            return null;
        }
    }
}
