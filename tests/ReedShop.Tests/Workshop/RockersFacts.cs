using System.Text.Json;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

/// <summary>
/// 20 blanks are flattened on Monday. On Tuesday 13 lie flat, 5 rock on the glass and 2 are too thin; the five are
/// flattened, soaked and dried once more, and on Wednesday 4 pass and 1 cracks.
/// </summary>
public sealed class RockersFacts
{
    [Fact]
    public async Task The_flat_ones_go_on_while_the_rockers_walk_again()
    {
        await using var shop = await ExampleReeds.NewShop();
        var batch = await shop.PostJson("/api/batches", new { model = ExampleReeds.Clarinet, blanks = 20 });
        var run = batch.GetProperty("id").GetString()!;

        Evening(shop, 1);
        await Record(shop, run, 1, new { passed = 20, rejected = Array.Empty<object>() });
        await Record(shop, run, 2, new { passed = 20, rejected = Array.Empty<object>() });

        Evening(shop, 2);
        var checkedFlat = await Record(
            shop,
            run,
            3,
            new
            {
                passed = 13,
                redo = 5,
                rejected = new[] { new { reason = "thin", count = 2 } },
            }
        );
        var rockers = Assert.Single(checkedFlat.GetProperty("trays").EnumerateArray());
        Assert.Equal(5, rockers.GetProperty("blanks").GetInt32());
        Assert.Equal("coarse flatten", rockers.GetProperty("nextStepName").GetString());

        // The 13 are free to go on on Tuesday: to the rack for their second night.
        var flat = await Record(shop, run, 4, new { passed = 13, rejected = Array.Empty<object>() });
        Assert.Equal("shelved", flat.GetProperty("batch").GetProperty("stage").GetString());

        var tray = rockers.GetProperty("id").GetString()!;
        await Record(shop, tray, 1, new { passed = 5, rejected = Array.Empty<object>() });
        await Record(shop, tray, 2, new { passed = 5, rejected = Array.Empty<object>() });

        Evening(shop, 3);
        await Record(shop, tray, 3, new { passed = 4, rejected = new[] { new { reason = "crack", count = 1 } } });
        await Record(shop, tray, 4, new { passed = 4, rejected = Array.Empty<object>() });

        var shelf = Assert.Single((await shop.GetJson("/api/shelf")).EnumerateArray());
        Assert.Equal(17, shelf.GetProperty("count").GetInt32());
        Assert.Equal(["crack, 1", "thin, 2"], await Reasons(shop, run, tray));

        // Of 20 that came to the check for the first time 17 survived, 5 after another try.
        var step = (await shop.GetJson("/api/yields?model=clarinet"))[0]
            .GetProperty("steps")
            .EnumerateArray()
            .Single(s => s.GetProperty("name").GetString() == "fine flatten");
        Assert.Equal(20, step.GetProperty("blanks").GetInt32());
        Assert.Equal(1, step.GetProperty("batches").GetInt32());
    }

    private static void Evening(ShopHost shop, int march) =>
        shop.Time.SetUtcNow(new DateTimeOffset(2027, 3, march, 20, 0, 0, TimeSpan.Zero));

    private static async Task<string[]> Reasons(ShopHost shop, params string[] batches)
    {
        var reasons = new List<string>();
        foreach (var batch in batches)
        {
            var story = await shop.GetJson($"/api/batches/{batch}");
            reasons.AddRange(
                from step in story.GetProperty("steps").EnumerateArray()
                from reject in step.GetProperty("rejected").EnumerateArray()
                select $"{reject.GetProperty("reason").GetString()}, {reject.GetProperty("count").GetInt32()}"
            );
        }

        return [.. reasons.Order()];
    }
}
