using System.Globalization;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;

namespace ReedShop.Tests;

/// <summary>A sitting as the week shows it.</summary>
public sealed record PlannedWork(string Batch, DateOnly Date, int FirstStep, string[] Steps, int Part, int Blanks);

/// <summary>Works at the bench evening by evening, as the plan says, through the API.</summary>
public sealed class ExampleMaker(ShopHost shop)
{
    private readonly HashSet<string> rocked = [];

    public DateOnly Today { get; private set; } = DateOnly.FromDateTime(ShopHost.Monday.Date);

    /// <summary>
    /// How many reeds of each strength come out right from now on; the others land half a strength softer. A strength
    /// that is not named comes out right.
    /// </summary>
    public Dictionary<double, int> RightReeds { get; } = [];

    public static DateOnly Day(JsonElement item, string name) =>
        DateOnly.ParseExact(item.GetProperty(name).GetString()!, "yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>The first evening worked will be that of this day.</summary>
    public void StartOn(DateOnly day) => Today = day.AddDays(-1);

    public async Task WorkUntil(Func<Task<bool>> done, int mostDays)
    {
        for (var day = 0; day < mostDays; day++)
        {
            if (await done())
            {
                return;
            }

            Today = Today.AddDays(1);
            shop.Time.SetUtcNow(new DateTimeOffset(Today, new TimeOnly(20, 30), TimeSpan.Zero));
            await shop.Within(services => services.GetRequiredService<ReedShop.Workshop.Replans>().CatchUp(default));
            foreach (var sitting in (await SittingsFrom(Today, weeks: 1)).Where(sitting => sitting.Date == Today))
            {
                await Work(sitting);
            }
        }

        Assert.Fail($"not done after {mostDays} days");
    }

    public async Task<string[]> OpenBatches() =>
        [
            .. (await shop.GetJson("/api/batches?limit=500"))
                .GetProperty("items")
                .EnumerateArray()
                .Where(IsOpen)
                .Where(batch => batch.GetProperty("id").GetString() == batch.GetProperty("root").GetString())
                .Select(batch => batch.GetProperty("id").GetString()!),
        ];

    public async Task<IReadOnlyList<PlannedWork>> SittingsFrom(DateOnly first, int weeks)
    {
        var sittings = new List<PlannedWork>();
        for (var week = 0; week < weeks; week++)
        {
            var view = await shop.GetJson($"/api/week?from={first.AddDays(7 * week):yyyy-MM-dd}");
            Assert.False(view.GetProperty("outdated").GetBoolean());
            Assert.Empty(view.GetProperty("unplaced").EnumerateArray());
            foreach (var day in view.GetProperty("days").EnumerateArray())
            {
                Assert.True(day.GetProperty("plannedMinutes").GetInt32() <= day.GetProperty("openMinutes").GetInt32());
                sittings.AddRange(day.GetProperty("sittings").EnumerateArray().Select(Read));
            }
        }

        return sittings;
    }

    private static bool IsOpen(JsonElement batch) => batch.GetProperty("stage").GetString() is "planned" or "onBench";

    private static PlannedWork Read(JsonElement sitting) =>
        new(
            sitting.GetProperty("batch").GetString()!,
            Day(sitting, "date"),
            sitting.GetProperty("firstStep").GetInt32(),
            [.. sitting.GetProperty("steps").EnumerateArray().Select(step => step.GetString()!)],
            sitting.GetProperty("part").GetInt32(),
            sitting.GetProperty("blanks").GetInt32()
        );

    /// <summary>The steps of a sitting one after another; blanks that a cut sitting leaves for later are carried.</summary>
    private async Task Work(PlannedWork sitting)
    {
        for (var index = 0; index < sitting.Steps.Length; index++)
        {
            var batch = (await shop.GetJson($"/api/batches/{sitting.Batch}")).GetProperty("batch");
            var step = sitting.FirstStep + index;
            // Reeds that came out of another batch earlier this evening may have made this one needless.
            if (!IsOpen(batch) || batch.GetProperty("nextStep").GetInt32() != step)
            {
                return;
            }

            var blanks = batch.GetProperty("blanks").GetInt32();
            await Step(sitting, step, sitting.Steps[index], blanks, index == 0 ? blanks - sitting.Blanks : 0, batch);
        }
    }

    private async Task Step(PlannedWork sitting, int step, string name, int blanks, int carried, JsonElement batch)
    {
        var path = $"/api/batches/{sitting.Batch}";
        if (name == "grade")
        {
            await Grade(path, blanks, batch.GetProperty("aim").GetDouble());
        }
        else if (name == "fine flatten" && rocked.Add(batch.GetProperty("root").GetString()!) && blanks > 6)
        {
            var counts = new
            {
                passed = blanks - 2,
                redo = 1,
                rejected = new[] { new { reason = "crack", count = 1 } },
            };
            await shop.PostJson($"{path}/steps/{step}/record", counts);
        }
        else
        {
            var counts = new
            {
                passed = blanks - carried,
                carried,
                rejected = Array.Empty<object>(),
            };
            await shop.PostJson($"{path}/steps/{step}/record", counts);
        }
    }

    private async Task Grade(string path, int blanks, double aim)
    {
        var provisional = new { grades = new[] { new { strength = aim, count = blanks } }, final = false };
        await shop.PostJson($"{path}/grades", provisional);
        var right = Math.Min(blanks, RightReeds.GetValueOrDefault(aim, blanks));
        if (RightReeds.ContainsKey(aim))
        {
            RightReeds[aim] -= right;
        }

        var final = new
        {
            grades = new[]
            {
                new { strength = aim, count = right },
                new { strength = aim - 0.5, count = blanks - right },
            },
            final = true,
        };
        await shop.PostJson($"{path}/grades", final);
    }
}
