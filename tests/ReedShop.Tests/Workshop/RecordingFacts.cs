using System.Net;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

public sealed class RecordingFacts
{
    [Fact]
    public async Task The_same_counts_twice_are_one_record_and_others_are_refused()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        var first = await Record(shop, run, 1, Kept(10));
        var again = await Record(shop, run, 1, Kept(10));
        Assert.Equal(first.GetProperty("step").ToString(), again.GetProperty("step").ToString());

        var other = await shop.Send(HttpMethod.Post, $"/api/batches/{run}/steps/1/record", Kept(9, ("crack", 1)));
        await ShopHost.ReadProblem(other, HttpStatusCode.UnprocessableEntity, "key-reused");
    }

    [Fact]
    public async Task Counts_that_do_not_add_up_are_refused_with_the_sum_that_would()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        var answer = await shop.Send(HttpMethod.Post, $"/api/batches/{run}/steps/1/record", Kept(9));
        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Contains("add up to 10", problem.GetProperty("allowed").GetString(), StringComparison.Ordinal);
        Assert.Equal(1, (await Batch(shop, run)).GetProperty("nextStep").GetInt32());
    }

    [Fact]
    public async Task A_step_taken_back_can_be_recorded_again_and_its_trays_are_gone()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        await Record(shop, run, 1, Kept(10));
        await Record(shop, run, 2, Kept(10));
        await Record(
            shop,
            run,
            3,
            new
            {
                passed = 7,
                redo = 3,
                rejected = Array.Empty<object>(),
            }
        );

        var back = await shop.PostJson($"/api/batches/{run}/undo", new { });

        Assert.Equal(10, back.GetProperty("blanks").GetInt32());
        Assert.Equal(3, back.GetProperty("nextStep").GetInt32());
        var open = (await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray();
        Assert.Single(open, batch => batch.GetProperty("stage").GetString() == "onBench");
        var anew = await Record(shop, run, 3, Kept(8, ("crack", 2)));
        Assert.Equal(8, anew.GetProperty("batch").GetProperty("blanks").GetInt32());
    }

    [Fact]
    public async Task A_wrong_count_is_mended_through_the_steps_since()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        await Record(shop, run, 1, Kept(10));
        await Record(shop, run, 2, Kept(10));

        await shop.PostJson($"/api/batches/{run}/steps/1/correct", Kept(9, ("crack", 1)));

        var story = await shop.GetJson($"/api/batches/{run}");
        Assert.Equal(9, story.GetProperty("batch").GetProperty("blanks").GetInt32());
        var steps = story.GetProperty("steps").EnumerateArray().ToArray();
        Assert.Equal((9, 9), (steps[1].GetProperty("in").GetInt32(), steps[1].GetProperty("passed").GetInt32()));
    }
}
