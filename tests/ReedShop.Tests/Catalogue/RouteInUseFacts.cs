using System.Net;
using System.Text.Json.Nodes;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Catalogue;

public sealed class RouteInUseFacts
{
    [Fact]
    public async Task Steps_of_a_route_stay_once_a_batch_walks_it()
    {
        await using var shop = await ExampleReeds.NewShop();
        await Start(shop, 10);
        var answer = await shop.Owner.GetAsync("/api/models/clarinet", TestContext.Current.CancellationToken);
        var model = JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
        model.AsObject().Remove("model");
        model["route"]![0]!["steps"]!.AsArray().RemoveAt(0);
        model["route"]![0]!["steps"]![1]!.AsObject().Remove("redoFrom");

        var shorter = await shop.Send(
            HttpMethod.Put,
            "/api/models/clarinet",
            model,
            [("If-Match", answer.Headers.ETag!.Tag)]
        );

        await ShopHost.ReadProblem(shorter, HttpStatusCode.Conflict, "wrong-stage");
    }
}
