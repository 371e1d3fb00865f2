using System.Net;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

public sealed class TrayFacts
{
    [Fact]
    public async Task Trays_are_split_and_merged_without_losing_a_blank()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 12);
        var trays = await shop.PostJson($"/api/batches/{run}/split", new { trays = new[] { 5, 4, 3 } });
        Assert.Equal([5, 4, 3], trays.EnumerateArray().Select(tray => tray.GetProperty("blanks").GetInt32()));
        Assert.Equal(["1", "1a", "1b"], trays.EnumerateArray().Select(tray => tray.GetProperty("number").GetString()));

        var ids = trays.EnumerateArray().Skip(1).Select(tray => tray.GetProperty("id").GetString()).ToArray();
        var whole = await shop.PostJson($"/api/batches/{run}/merge", new { trays = ids });
        Assert.Equal(12, whole.GetProperty("blanks").GetInt32());

        var wrong = await shop.Send(HttpMethod.Post, $"/api/batches/{run}/split", new { trays = new[] { 5, 4 } });
        await ShopHost.ReadProblem(wrong, HttpStatusCode.UnprocessableEntity, "invalid-value");
    }

    [Fact]
    public async Task A_step_is_not_taken_back_once_its_blanks_are_on_several_trays()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        await Record(shop, run, 1, Kept(10));
        await shop.PostJson($"/api/batches/{run}/split", new { trays = new[] { 5, 5 } });

        var undo = await shop.Send(HttpMethod.Post, $"/api/batches/{run}/undo", new { });
        await ShopHost.ReadProblem(undo, HttpStatusCode.Conflict, "wrong-stage");
        Assert.Equal(5, (await Batch(shop, run)).GetProperty("blanks").GetInt32());
    }
}
