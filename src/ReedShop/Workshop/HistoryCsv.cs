using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>The columns a file of past batches must have, in any order, and those it may have.</summary>
public sealed record HistoryColumns(IReadOnlyList<string> Needed, IReadOnlyList<string> Optional)
{
    public static readonly HistoryColumns Steps = new(
        ["batch", "model", "aim", "caneLot", "date", "step", "in", "out"],
        ["redo"]
    );

    public static readonly HistoryColumns Grades = new(["batch", "strength", "count"], []);

    public string Allowed =>
        $"columns {string.Join(", ", Needed)}"
        + (Optional.Count > 0 ? $", and {string.Join(", ", Optional)} if you like" : "")
        + ", in any order, separated by commas";
}

/// <summary>One record of the file.</summary>
/// <param name="Number">The physical line of the file on which it starts; the header is line 1.</param>
/// <param name="Columns">Where each column stands.</param>
/// <param name="Fault">Why it cannot be divided into columns, or null.</param>
public sealed record HistoryLine(
    int Number,
    IReadOnlyDictionary<string, int> Columns,
    IReadOnlyList<string> Fields,
    string? Fault
)
{
    /// <summary>The field of a column; empty where the file has no such column.</summary>
    public string this[string column] => Columns.TryGetValue(column, out var at) ? Fields[at] : "";
}

/// <summary>Reads a file record by record, whatever the order of its columns.</summary>
public sealed class HistoryCsv : IDisposable
{
    private readonly CsvParser parser;
    private Dictionary<string, int> places = [];
    private bool malformed;

    private HistoryCsv(TextReader text) =>
        parser = new CsvParser(
            text,
            new CsvConfiguration(CultureInfo.InvariantCulture)
            {
                HasHeaderRecord = false,
                // A blank line is skipped here, because it counts as a line of the file all the same.
                IgnoreBlankLines = false,
                BadDataFound = _ => malformed = true,
            },
            leaveOpen: true
        );

    /// <summary>Opens a file whose header fits, or refuses it.</summary>
    public static async Task<Result<HistoryCsv>> Open(TextReader text, HistoryColumns columns)
    {
        var csv = new HistoryCsv(text);
        if (await csv.ReadHeader(columns) is not { } refusal)
        {
            return csv;
        }

        csv.Dispose();
        return refusal;
    }

    public async IAsyncEnumerable<HistoryLine> Lines()
    {
        var line = parser.RawRow + 1;
        while (await Next() is { } fields)
        {
            if (!IsBlank(fields))
            {
                yield return Divide(line, fields);
            }

            line = parser.RawRow + 1;
        }
    }

    public void Dispose() => parser.Dispose();

    private async Task<Refusal?> ReadHeader(HistoryColumns columns)
    {
        string[]? fields;
        do
        {
            fields = await Next();
        } while (fields is not null && IsBlank(fields));

        if (fields is null)
        {
            return Refusal.Invalid("file", "The file is empty.", columns.Allowed);
        }

        var header = Array.ConvertAll(fields, name => Known(columns, name.Trim()) ?? name.Trim());
        if (HeaderFault(columns, header) is { } fault)
        {
            return Refusal.Invalid("file", fault, columns.Allowed);
        }

        places = header.Index().ToDictionary(column => column.Item, column => column.Index, StringComparer.Ordinal);
        return null;
    }

    private static string? HeaderFault(HistoryColumns columns, string[] header)
    {
        var missing = columns.Needed.Except(header, StringComparer.Ordinal).ToArray();
        var unknown = header.Where(name => Known(columns, name) is null).ToArray();
        var twice = header.GroupBy(name => name).Where(name => name.Count() > 1).Select(name => name.Key).ToArray();
        return unknown.Length > 0 ? $"The first line names unknown columns: {Quoted(unknown)}."
            : missing.Length > 0 ? $"The first line does not name the columns {string.Join(", ", missing)}."
            : twice.Length > 0 ? $"The first line names a column twice: {Quoted(twice)}."
            : null;
    }

    private async Task<string[]?> Next()
    {
        malformed = false;
        return await parser.ReadAsync() ? parser.Record : null;
    }

    private HistoryLine Divide(int line, string[] fields)
    {
        var fault =
            Array.Exists(fields, field => field.Contains('\uFFFD', StringComparison.Ordinal))
                ? "some bytes are not UTF-8; save the file as UTF-8"
            : malformed ? "a quotation mark is out of place; quote a whole field, and double a mark inside it"
            : fields.Length != places.Count ? $"there are {fields.Length} fields, but the header names {places.Count}"
            : null;
        return new HistoryLine(line, places, fields, fault);
    }

    private static bool IsBlank(string[] fields) => fields is [var only] && string.IsNullOrWhiteSpace(only);

    private static string? Known(HistoryColumns columns, string name) =>
        columns
            .Needed.Concat(columns.Optional)
            .FirstOrDefault(column => string.Equals(column, name, StringComparison.OrdinalIgnoreCase));

    private static string Quoted(string[] names) =>
        string.Join(", ", names.Select(name => $"\"{HistoryFields.Shortened(name)}\""));
}
