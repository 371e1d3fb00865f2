using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Planning;
using ReedShop.Planning.Yields;
using ReedShop.Workshop;

namespace ReedShop.Tests;

/// <summary>The whole way, over HTTP, on a real database, with a clock the test moves.</summary>
public sealed class JourneyFacts
{
    /// <summary>
    /// Worked out by hand. New work starts tomorrow, Tuesday 2 March 2027. The clarinet route has five sittings with one
    /// night between them (up to twelve blanks, as many as lips last for), so on an empty bench they fall on 2, 3, 4, 5
    /// and 6 March. No night is damp and no evening lost, so that the next parcels, on Monday 8, leave with all that
    /// comes out well. So many blanks are started that this is likely enough, and one or two more, because blanks that
    /// are worked again miss that parcel.
    /// </summary>
    [Fact]
    public async Task The_date_and_the_blanks_of_a_quote_agree_with_figures_worked_out_by_hand()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var settings = JsonSerializer.SerializeToNode(ExampleShop.Settings)!;
        settings["dampNightChance"] = 0;
        using var known = await shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken);
        await shop.PutJson("/api/shop", settings, known.Headers.ETag!.Tag);

        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));

        Assert.Equal("2027-03-08", quote.GetProperty("shipBy").GetString());
        var cover = await CoverByForwardPass(shop, wanted: 2, most: 12);
        var enough = Array.FindIndex(cover, chance => chance >= 0.9);
        var blanks = quote.GetProperty("lines")[0].GetProperty("blanks").GetInt32();
        Assert.InRange(blanks, enough, enough + 2);
        Assert.InRange(quote.GetProperty("chance").GetDouble(), 0.9, cover[blanks]);
        Assert.Equal(2 * 350, quote.GetProperty("price").GetProperty("amount").GetInt64());
    }

    [Fact]
    public async Task From_the_imported_history_to_the_parcel()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var maker = new ExampleMaker(shop);
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 10), (4, 2)));
        Assert.InRange(quote.GetProperty("chance").GetDouble(), 0.9, 0.99);
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        var link = $"/api/orders/{order.GetProperty("id").GetString()}";
        Assert.Equal("accepted", order.GetProperty("status").GetString());
        Assert.Equal(quote.GetProperty("shipBy").GetString(), order.GetProperty("shipBy").GetString());

        var planned = await maker.SittingsFrom(new DateOnly(2027, 3, 1), weeks: 3);
        Assert.NotEmpty(planned);
        Assert.All(planned, sitting => Assert.True(sitting.Date < ExampleMaker.Day(order, "shipBy")));

        await TheMorningListArrivesOnce(shop, planned.Min(sitting => sitting.Date));

        // Ten of 3½ come short by two, the rest as asked; one blank of each batch rocks once, one cracks.
        maker.RightReeds[3.5] = 8;
        var firstBatches = await maker.OpenBatches();
        maker.StartOn(planned.Min(sitting => sitting.Date));
        await maker.WorkUntil(async () => (await maker.OpenBatches()).Except(firstBatches).Any(), mostDays: 30);
        var makeUp = (await maker.OpenBatches()).Except(firstBatches).ToArray();
        Assert.NotEmpty(makeUp);
        Assert.Equal("onBench", (await shop.GetJson(link)).GetProperty("status").GetString());
        Assert.NotEmpty(await maker.SittingsFrom(maker.Today, weeks: 3));

        maker.RightReeds.Clear();
        await maker.WorkUntil(async () => Status(await shop.GetJson(link)) == "ready", mostDays: 40);
        await shop.Tick("ready-letters");
        await shop.Tick("ready-letters");
        Assert.Single(
            (await shop.GetJson("/api/messages")).EnumerateArray(),
            letter => letter.GetProperty("title").GetString() == "Order 1 at Harbour reeds: your reeds are ready"
        );
        var shipped = await shop.PostJson($"{link}/ship", new { tracking = "AB 123" });
        Assert.Equal("shipped", Status(shipped));
        Assert.Equal("AB 123", (await shop.GetJson(link)).GetProperty("tracking").GetString());

        // What was sent left the drawer, and nothing is spoken for any more.
        Assert.All(
            (await shop.GetJson("/api/drawer")).EnumerateArray(),
            reeds => Assert.Equal(0, reeds.GetProperty("spokenFor").GetInt32())
        );
    }

    /// <summary>The reminder of the first day with work, as a file, because no mail server is set.</summary>
    private static async Task TheMorningListArrivesOnce(ShopHost shop, DateOnly day)
    {
        shop.Time.SetUtcNow(new DateTimeOffset(day, new TimeOnly(7, 5), TimeSpan.Zero));
        for (var tick = 0; tick < 2; tick++)
        {
            await shop.Tick("plan-sweep");
            await shop.Tick("morning-reminder");
            await shop.Tick("deliver-messages");
        }

        var letters = Directory.GetFiles(Path.Combine(shop.Folder, "mail"), "*.eml").Select(File.ReadAllText);
        Assert.Single(letters, letter => letter.Contains("coarse flatten", StringComparison.Ordinal));
    }

    private static string? Status(JsonElement order) => order.GetProperty("status").GetString();

    /// <summary>
    /// The chance of enough reeds of 3½ for every number of blanks, by walking forward from the blanks started: another
    /// way than the program's, which walks backward from the need.
    /// </summary>
    private static async Task<double[]> CoverByForwardPass(ShopHost shop, int wanted, int most)
    {
        var known = (await shop.Within(services => services.GetRequiredService<StateReader>().Read(default))).Value;
        var supply = known.State.Models[ExampleReeds.Clarinet];
        var yields = supply.Yields(ExampleReeds.KindLot);
        var steps = supply.Route.CountedSteps(1, supply.Route.Steps.Count).Select(yields.Step).ToArray();
        var mix = yields.Grades(Strength.OfQuarters(14));
        return [.. Enumerable.Range(0, most + 1).Select(blanks => Cover(steps, mix, yields, blanks, wanted))];
    }

    private static double Cover(StepYield[] steps, GradeMix mix, YieldEstimate yields, int blanks, int wanted)
    {
        var cover = 0.0;
        for (var node = 0; node < yields.NodeWeights.Count; node++)
        {
            var alive = new double[blanks + 1];
            alive[blanks] = 1;
            foreach (var step in steps)
            {
                alive = After(step, node, alive);
            }

            cover += yields.NodeWeights[node] * alive.Select((p, reeds) => p * Enough(mix, reeds, wanted)).Sum();
        }

        return cover;
    }

    private static double[] After(StepYield step, int node, double[] alive)
    {
        var after = new double[alive.Length];
        for (var n = 0; n < alive.Length; n++)
        {
            var survivors = step.Nodes[node].Survivors(n);
            for (var k = 0; k <= n; k++)
            {
                after[k] += alive[n] * survivors[k];
            }
        }

        return after;
    }

    private static double Enough(GradeMix mix, int reeds, int wanted) =>
        mix.Nodes.Sum(node =>
        {
            var share = node.Share(Strength.OfQuarters(14));
            return node.Weight
                * Enumerable.Range(0, reeds + 1).Where(k => k >= wanted).Sum(k => Binomial(reeds, k, share));
        });

    private static double Binomial(int n, int k, double p)
    {
        var term = 1.0;
        for (var i = 1; i <= k; i++)
        {
            term *= (double)(n - k + i) / i;
        }

        return term * Math.Pow(p, k) * Math.Pow(1 - p, n - k);
    }
}
