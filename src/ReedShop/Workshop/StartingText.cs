using System.Globalization;
using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>The state of the first day as it is typed: one thing on a line, its parts between commas.</summary>
public sealed record StartingText(string Drawer, string Shelf, string Batches, string Promises)
{
    public const string DrawerLine = "clarinet, 3½, 12";
    public const string ShelfLine = "clarinet, 30, north lot";
    public const string BatchLine = "clarinet, 3½, 8, play in, 2027-02-26";
    public const string PromiseLine =
        "clarinet, 3½, 10, 2027-03-18, Ana Example, ana@example.org, 1 Quay, Harbour, 1000-001, PT";

    public static StartingText Empty { get; } = new("", "", "", "");

    /// <summary>The wish, or the first line that cannot be read, with how a line is written.</summary>
    public Result<StartingWish> Parse(IReadOnlyDictionary<string, ReedModel> models) =>
        Lines("drawer", Drawer, DrawerLine, Reeds)
            .Then(drawer =>
                Lines("shelf", Shelf, ShelfLine, Rested)
                    .Then(shelf =>
                        Lines("batches", Batches, BatchLine, parts => HalfWay(parts, models))
                            .Then(batches =>
                                Lines("promises", Promises, PromiseLine, Promise)
                                    .Then<StartingWish>(promises => new StartingWish(
                                        drawer,
                                        shelf,
                                        batches,
                                        Joined(promises)
                                    ))
                            )
                    )
            );

    private static Result<IReadOnlyList<T>> Lines<T>(string field, string text, string example, Func<string[], T?> read)
        where T : class
    {
        var items = new List<T>();
        foreach (var line in text.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            if (read(line.Split(',', StringSplitOptions.TrimEntries)) is not { } item)
            {
                return Refusal.Invalid(field, $"“{line}” cannot be read.", $"lines such as {example}");
            }

            items.Add(item);
        }

        return items;
    }

    private static DrawerCountWish? Reeds(string[] parts) =>
        parts is [var model, var strength, var count]
        && Strength.TryParse(strength, out var graded)
        && Count(count) is { } reeds
            ? new DrawerCountWish(model, graded, reeds)
            : null;

    private static StartingShelf? Rested(string[] parts) =>
        parts is [var model, var count, .. { Length: <= 1 } lot] && Count(count) is { } blanks
            ? new StartingShelf(model, blanks, lot is [{ Length: > 0 } name] ? name : null)
            : null;

    /// <summary>A run for the shelf has "shelf" in place of its aim.</summary>
    private static StartingBatch? HalfWay(string[] parts, IReadOnlyDictionary<string, ReedModel> models)
    {
        if (
            parts is not [var key, var aim, var count, var step, .. { Length: <= 1 } day]
            || !models.TryGetValue(key, out var model)
            || model.Route.NumberOf(step) is not { } next
            || Count(count) is not { } blanks
        )
        {
            return null;
        }

        var worked = day is [{ Length: > 0 } date] ? Day(date) : null;
        if ((worked is null && day is [{ Length: > 0 }]) || (!Strength.TryParse(aim, out var wanted) && aim != "shelf"))
        {
            return null;
        }

        return new StartingBatch(key, blanks, next, aim == "shelf" ? null : wanted, LastWorkedOn: worked);
    }

    private static StartingPromise? Promise(string[] parts) =>
        parts
            is [
                var model,
                var strength,
                var count,
                var day,
                var name,
                var email,
                var street,
                var town,
                var code,
                var country,
            ]
        && Strength.TryParse(strength, out var wanted)
        && Count(count) is { } reeds
        && Day(day) is { } shipBy
            ? new StartingPromise(
                name,
                email,
                new PostalAddress(street, town, code, country),
                [new StartingLine(model, wanted, reeds)],
                shipBy
            )
            : null;

    /// <summary>Lines of one buyer for one day are one order.</summary>
    private static IReadOnlyList<StartingPromise> Joined(IReadOnlyList<StartingPromise> promises) =>
        [
            .. promises
                .GroupBy(promise => (promise.BuyerEmail, promise.ShipBy))
                .Select(same => same.First() with { Lines = [.. same.SelectMany(promise => promise.Lines)] }),
        ];

    private static int? Count(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : null;

    private static DateOnly? Day(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : null;
}
