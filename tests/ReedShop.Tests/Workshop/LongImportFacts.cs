using System.Globalization;
using System.Text;
using static ReedShop.Tests.Workshop.PastRecords;

namespace ReedShop.Tests.Workshop;

public sealed class LongImportFacts
{
    /// <summary>
    /// Far below ten, which work that grows with the square would need, and far above what a busy machine does to either
    /// time.
    /// </summary>
    private const int Grows = 2;

    [Fact]
    public async Task A_row_of_a_long_file_takes_hardly_longer_than_one_of_a_short_file()
    {
        await using var shop = await Open();
        await Taken(shop, Long("warm-up", batches: 250));
        var shortOnes = new[]
        {
            await Taken(shop, Long("short", batches: 1250)),
            await Taken(shop, Long("also short", batches: 1250)),
        };

        var file = Long("long", batches: 12_500);
        var longOne = await Taken(shop, file);

        TestContext.Current.SendDiagnosticMessage("10,000 rows taken in {0}, 100,000 in {1}", shortOnes.Max(), longOne);
        Assert.True(longOne < 10 * Grows * shortOnes.Max(), $"{shortOnes.Max()}, then {longOne}");
        Assert.Equal((0, 100_000, 0), Counts(await Import(shop, Steps, file)));
    }

    /// <summary>How long the file is taken in, all of whose rows must be.</summary>
    private static async Task<TimeSpan> Taken(ShopHost shop, string file)
    {
        var rows = file.Count(letter => letter == '\n') - 1;
        var started = TimeProvider.System.GetTimestamp();
        var report = await Import(shop, Steps, file);
        var taken = TimeProvider.System.GetElapsedTime(started);
        Assert.Equal((rows, 0, 0), Counts(report));
        return taken;
    }

    /// <summary>Eight rows a batch, as the usual file has.</summary>
    private static string Long(string name, int batches)
    {
        string[] steps = ["fine flatten", "second rack", "sides", "profile", "clip", "play in", "play again", "grade"];
        var text = new StringBuilder(StepHeader);
        for (var batch = 0; batch < batches; batch++)
        {
            foreach (var step in steps)
            {
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"{name} {batch},clarinet,3.5,lot {batch % 40},2026-{1 + (batch % 12):00}-15,{step},{12 + (batch % 9)},{8 + (batch % 9)}\n"
                );
            }
        }

        return text.ToString();
    }
}
