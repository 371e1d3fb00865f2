using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Insight;

public sealed class SizingFacts
{
    [Fact]
    public async Task The_table_says_what_each_size_gives_costs_and_exceeds()
    {
        await using var shop = await ExampleReeds.ShopWithHistory(caneBlanks: 40);
        var sizing = await shop.GetJson("/api/sizing?model=clarinet&strength=3.5&quantity=10");

        var table = sizing.GetProperty("table").EnumerateArray().ToArray();
        Assert.Equal(Enumerable.Range(10, 111), table.Select(row => row.GetProperty("blanks").GetInt32()));
        Assert.All(Pairs(table, "chance"), pair => Assert.True(pair.Second >= pair.First - 1e-12));
        Assert.All(Pairs(table, "expectedGood"), pair => Assert.True(pair.Second > pair.First));
        var answer = sizing.GetProperty("blanks").GetInt32();
        var row = table.First(row => row.GetProperty("blanks").GetInt32() == answer);
        Assert.True(row.GetProperty("chance").GetDouble() >= 0.9);
        Assert.Equal("EUR", row.GetProperty("cost").GetProperty("currency").GetString());
        Assert.True(row.GetProperty("evenings").GetInt32() >= 3);
        Assert.All(
            table,
            row =>
                Assert.Equal(
                    Narrowest(sizing, row),
                    row.TryGetProperty("limit", out var limit) ? limit.GetString() : null
                )
        );
        Assert.Equal(40, Limits(sizing)["cane"]);
        Assert.Equal(60, Limits(sizing)["rack"]);
    }

    [Fact]
    public async Task The_size_that_costs_least_costs_no_more_than_any_row()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var sizing = await shop.GetJson("/api/sizing?model=clarinet&strength=3.5&quantity=6&runs=2");
        var cheapest = sizing.GetProperty("cheapest");
        var costs = sizing
            .GetProperty("table")
            .EnumerateArray()
            .ToDictionary(row => row.GetProperty("blanks").GetInt32(), row => Amount(row.GetProperty("cost")));
        Assert.Equal(costs.Values.Min(), Amount(cheapest.GetProperty("cost")));
        Assert.Equal(costs[cheapest.GetProperty("blanks").GetInt32()], costs.Values.Min());
        Assert.True(Amount(sizing.GetProperty("prices").GetProperty("blank")) > 80);
    }

    [Fact]
    public async Task Dear_lateness_in_the_settings_makes_the_cheapest_batch_larger()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        const string Question = "/api/sizing?model=clarinet&strength=3.5&quantity=6";
        var usual = (await shop.GetJson(Question)).GetProperty("cheapest").GetProperty("blanks").GetInt32();
        var settings = (await shop.GetJson("/api/shop")).Deserialize<Dictionary<string, object>>()!;
        settings["costs"] = new
        {
            blank = 80,
            benchHour = 1500,
            lateDay = 50_000,
            surplusShare = 0.3,
        };
        await shop.PutJson("/api/shop", settings, "\"1\"");

        var dear = (await shop.GetJson(Question)).GetProperty("cheapest").GetProperty("blanks").GetInt32();

        Assert.True(dear > usual);
    }

    [Fact]
    public async Task From_the_shelf_fewer_blanks_are_enough()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await shop.PostJson(
            "/api/shelf/count",
            new
            {
                model = ExampleReeds.Clarinet,
                caneLot = ExampleReeds.KindLot,
                count = 18,
            }
        );
        var cane = await shop.GetJson("/api/sizing?model=clarinet&strength=3.5&quantity=8");
        var shelf = await shop.GetJson("/api/sizing?model=clarinet&strength=3.5&quantity=8&from=shelf");
        Assert.True(shelf.GetProperty("blanks").GetInt32() <= cane.GetProperty("blanks").GetInt32());
        Assert.True(Row(shelf, 12).GetProperty("chance").GetDouble() > Row(cane, 12).GetProperty("chance").GetDouble());
        Assert.True(
            Row(shelf, 12).GetProperty("evenings").GetInt32() < Row(cane, 12).GetProperty("evenings").GetInt32()
        );
        Assert.Equal(18, Limits(shelf)["shelf"]);
    }

    [Fact]
    public async Task Every_aim_near_the_strength_is_shown_and_the_best_is_named()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var sizing = await shop.GetJson("/api/sizing?model=clarinet&strength=3.5&quantity=8&aim=3.75");
        var shares = sizing
            .GetProperty("aims")
            .EnumerateArray()
            .ToDictionary(aim => aim.GetProperty("aim").GetDouble(), aim => aim.GetProperty("share").GetDouble());
        Assert.Equal([2.5, 3, 3.5, 4, 4.5], shares.Keys);
        Assert.Equal(shares.Values.Max(), shares[sizing.GetProperty("bestAim").GetDouble()]);
        Assert.Equal(3.75, sizing.GetProperty("aim").GetDouble());
    }

    [Fact]
    public async Task Two_strengths_are_covered_by_batches_of_two_aims()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var joint = await shop.GetJson("/api/sizing/joint?model=clarinet&need=2.5:4&need=4:5");
        Assert.Equal(2, joint.GetProperty("batches").GetArrayLength());
        Assert.True(joint.GetProperty("chance").GetDouble() >= 0.9);
        Assert.Equal(
            joint.GetProperty("blanks").GetInt32(),
            joint.GetProperty("batches").EnumerateArray().Sum(batch => batch.GetProperty("blanks").GetInt32())
        );
        Assert.Equal(
            [2.5, 4],
            joint.GetProperty("expected").EnumerateArray().Select(e => e.GetProperty("strength").GetDouble())
        );
    }

    [Theory]
    [InlineData("sizing?model=oboe&strength=3&quantity=4", "model")]
    [InlineData("sizing?model=clarinet&strength=3.3&quantity=4", "strength")]
    [InlineData("sizing?model=clarinet&strength=3&quantity=0", "quantity")]
    [InlineData("sizing?model=clarinet&strength=3&quantity=4&confidence=1", "confidence")]
    [InlineData("sizing?model=clarinet&strength=3&quantity=4&aim=9", "aim")]
    [InlineData("sizing?model=clarinet&strength=3&quantity=4&from=oak", "from")]
    [InlineData("sizing/joint?model=clarinet&need=3", "need")]
    [InlineData("sizing/joint?model=clarinet&need=3:4&need=3:2", "need")]
    [InlineData("sizing/joint?model=clarinet&need=2.5:40&need=3:40&need=4:40", "need")]
    [InlineData(
        "sizing/joint?model=clarinet&need=2:60&need=2.5:60&need=3:60&need=3.5:60&need=4:60&need=4.5:60",
        "need"
    )]
    public async Task What_cannot_be_sized_is_refused_by_its_field(string path, string field)
    {
        await using var shop = await ExampleReeds.NewShop();
        var problem = await ShopHost.ReadProblem(
            await shop.Send(HttpMethod.Get, $"/api/{path}"),
            HttpStatusCode.UnprocessableEntity,
            "invalid-value"
        );
        Assert.Equal(field, problem.GetProperty("field").GetString());
    }

    [Fact]
    public async Task A_shop_without_history_promises_no_number_and_says_how_little_is_known()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        var sizing = await shop.GetJson("/api/sizing?model=clarinet&strength=3&quantity=4");
        Assert.False(sizing.TryGetProperty("blanks", out _));
        Assert.Equal(0, sizing.GetProperty("batches").GetInt32());
        Assert.Equal(3, sizing.GetProperty("bestAim").GetDouble());
        Assert.InRange(Row(sizing, 120).GetProperty("chance").GetDouble(), 0.3, 0.9);
        var joint = await shop.GetJson("/api/sizing/joint?model=clarinet&need=2.5:4&need=4:5");
        Assert.Empty(joint.GetProperty("batches").EnumerateArray());
        Assert.False(joint.TryGetProperty("chance", out _));

        var page = await owner.Read("/bench/yields?model=clarinet&strength=3&quantity=4&confidence=90");

        Assert.Contains("No graded batch of this model stands behind these figures", page, StringComparison.Ordinal);
        Assert.Contains("No number in the table is enough that surely", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_batch_that_lost_nothing_is_sized_with_care()
    {
        await using var shop = await ExampleReeds.NewShop();
        await ExampleReeds.Import(
            shop,
            "/api/history/steps",
            "batch,model,aim,caneLot,date,step,in,out,redo\nB1,clarinet,3,clarinet B,2027-02-01,profile,20,20,0\n"
        );
        await ExampleReeds.Import(shop, "/api/history/grades", "batch,strength,count\nB1,3,20\n");
        var sizing = await shop.GetJson("/api/sizing?model=clarinet&strength=3&quantity=4&confidence=0.7");
        Assert.Equal(1, sizing.GetProperty("batches").GetInt32());
        Assert.InRange(sizing.GetProperty("blanks").GetInt32(), 7, 40);
    }

    private static JsonElement Row(JsonElement sizing, int blanks) =>
        sizing.GetProperty("table").EnumerateArray().First(row => row.GetProperty("blanks").GetInt32() == blanks);

    private static Dictionary<string, int> Limits(JsonElement sizing) =>
        sizing
            .GetProperty("limits")
            .EnumerateArray()
            .ToDictionary(
                limit => limit.GetProperty("limit").GetString()!,
                limit => limit.GetProperty("blanks").GetInt32()
            );

    private static IEnumerable<(double First, double Second)> Pairs(JsonElement[] table, string name)
    {
        var values = table.Select(row => row.GetProperty(name).GetDouble()).ToArray();
        return values.Zip(values.Skip(1));
    }

    private static string? Narrowest(JsonElement sizing, JsonElement row) =>
        Limits(sizing)
            .Where(limit => limit.Value < row.GetProperty("blanks").GetInt32())
            .OrderBy(limit => limit.Value)
            .Select(limit => limit.Key)
            .FirstOrDefault();

    private static long Amount(JsonElement money) => money.GetProperty("amount").GetInt64();
}
