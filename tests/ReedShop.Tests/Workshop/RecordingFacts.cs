using System.Net;
using System.Text.Json;

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

    [Fact]
    public async Task A_damp_night_puts_the_next_sitting_off_by_one_night()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        shop.Time.SetUtcNow(Evening(1));
        await Record(shop, run, 1, Kept(10));
        await Record(shop, run, 2, Kept(10));
        Assert.Equal("2027-03-02", await NextDay(shop, run));

        var tonight = new { date = "2027-03-01", damp = true };
        var early = await shop.Send(HttpMethod.Post, $"/api/batches/{run}/nights", tonight);
        await ShopHost.ReadProblem(early, HttpStatusCode.UnprocessableEntity, "invalid-value");

        shop.Time.SetUtcNow(Evening(2));
        await shop.PostJson($"/api/batches/{run}/nights", tonight);
        await shop.PostJson($"/api/batches/{run}/nights", new { date = "2027-03-01", damp = true });
        Assert.Equal("2027-03-03", await NextDay(shop, run));
    }

    [Fact]
    public async Task A_missed_evening_is_planned_again()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        Assert.Equal("2027-03-01", await NextDay(shop, run));

        shop.Time.SetUtcNow(Evening(2));
        Assert.True((await shop.GetJson("/api/week")).GetProperty("outdated").GetBoolean());
        await shop.Tick("plan-sweep");

        Assert.Equal("2027-03-02", await NextDay(shop, run));
        Assert.False((await shop.GetJson("/api/week")).GetProperty("outdated").GetBoolean());
    }

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
    public async Task A_sitting_moves_only_to_a_day_that_keeps_the_rules()
    {
        await using var shop = await ExampleReeds.NewShop();
        var run = await Start(shop, 10);
        var sitting = (await shop.GetJson($"/api/batches/{run}"))
            .GetProperty("planned")[0]
            .GetProperty("id")
            .GetString();
        var path = $"/api/sittings/{sitting}/move";

        var preview = await shop.PostJson(path, new { date = "2027-03-04", preview = true });
        Assert.False(preview.GetProperty("kept").GetBoolean());
        Assert.Equal("2027-03-01", await NextDay(shop, run));

        await ShopHost.ReadProblem(
            await shop.Send(HttpMethod.Post, path, new { date = "2027-03-04" }),
            (HttpStatusCode)428,
            "version-missing"
        );
        var version = (await shop.Owner.GetAsync("/api/week", TestContext.Current.CancellationToken)).Headers.ETag!.Tag;
        var closed = await shop.Send(HttpMethod.Post, path, new { date = "2027-03-07" }, [("If-Match", version)]);
        await ShopHost.ReadProblem(closed, HttpStatusCode.Conflict, "rule-broken");
        await ShopHost.Read(
            await shop.Send(HttpMethod.Post, path, new { date = "2027-03-04" }, [("If-Match", version)])
        );
        Assert.Equal("2027-03-04", await NextDay(shop, run));
        var stale = await shop.Send(HttpMethod.Post, path, new { date = "2027-03-05" }, [("If-Match", version)]);
        await ShopHost.ReadProblem(stale, HttpStatusCode.PreconditionFailed, "changed-meanwhile");
    }

    [Fact]
    public async Task A_maker_starts_in_the_middle_of_things()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var started = await shop.PostJson("/api/starting-state", Middle);
        Assert.Equal(2, started.GetProperty("orders").GetInt32());

        var orders = (await shop.GetJson("/api/orders")).GetProperty("items").EnumerateArray().ToArray();
        Assert.Equal(
            ["accepted", "ready"],
            orders.Select(order => order.GetProperty("order").GetProperty("status").GetString())
        );
        var half = (await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray();
        Assert.Contains(half, batch => batch.GetProperty("nextStepName").GetString() == "play in");

        var again = await shop.Send(HttpMethod.Post, "/api/starting-state", Middle);
        await ShopHost.ReadProblem(again, HttpStatusCode.Conflict, "wrong-stage");
    }

    [Fact]
    public async Task Reeds_that_are_missing_from_the_drawer_are_made_again_for_the_latest_promise()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                count = 4,
            }
        );
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 4)));
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        Assert.Equal("ready", order.GetProperty("status").GetString());

        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                count = 3,
            }
        );

        var now = await shop.GetJson($"/api/orders/{order.GetProperty("id").GetString()}");
        Assert.Equal("accepted", now.GetProperty("status").GetString());
        Assert.NotEmpty((await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray());
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

    [Fact]
    public async Task Steps_of_a_route_stay_once_a_batch_walks_it()
    {
        await using var shop = await ExampleReeds.NewShop();
        await Start(shop, 10);
        var answer = await shop.Owner.GetAsync("/api/models/clarinet", TestContext.Current.CancellationToken);
        var model = System.Text.Json.Nodes.JsonNode.Parse(
            await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)
        )!;
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

    [Fact]
    public async Task An_empty_member_of_a_list_is_refused_and_breaks_nothing()
    {
        await using var shop = await ExampleReeds.NewShop();
        var answer = await shop.Send(HttpMethod.Post, "/api/quotes", new { lines = new object?[] { null } });
        await ShopHost.ReadProblem(answer, HttpStatusCode.BadRequest, "unreadable");
    }

    [Fact]
    public async Task Cancelling_gives_back_the_cane_and_leaves_the_makers_own_batches()
    {
        await using var shop = await ExampleReeds.ShopWithHistory(caneBlanks: 400);
        var own = new
        {
            model = ExampleReeds.Clarinet,
            blanks = 8,
            aim = 3.5,
        };
        await shop.PostJson("/api/batches", own);
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((4, 3)));
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        Assert.True(await CaneLeft(shop) < 392);

        await shop.PostJson($"/api/orders/{order.GetProperty("id").GetString()}/cancel", new { });

        Assert.Equal(392, await CaneLeft(shop));
        var batches = (await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray();
        Assert.Single(batches, batch => batch.GetProperty("stage").GetString() == "planned");
    }

    private static object Middle =>
        new
        {
            drawer = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    strength = 3.5,
                    count = 4,
                },
            },
            shelf = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    blanks = 30,
                    caneLot = ExampleReeds.KindLot,
                },
            },
            batches = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    blanks = 8,
                    nextStep = 8,
                    aim = 3.5,
                    lastWorkedOn = "2027-02-28",
                },
            },
            promises = new[] { Promise(4, 3.5), Promise(2, 3) },
        };

    private static object Promise(int quantity, double strength) =>
        new
        {
            buyerName = "Rui Example",
            buyerEmail = "rui@example.org",
            address = new
            {
                street = "2 Quay",
                locality = "Harbour",
                postalCode = "1000-002",
                country = "PT",
            },
            lines = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    strength,
                    quantity,
                },
            },
            shipBy = "2027-03-29",
        };

    private static DateTimeOffset Evening(int march) => new(2027, 3, march, 20, 0, 0, TimeSpan.Zero);

    private static async Task<string> Start(ShopHost shop, int blanks) =>
        (await shop.PostJson("/api/batches", new { model = ExampleReeds.Clarinet, blanks }))
            .GetProperty("id")
            .GetString()!;

    private static object Kept(int passed, params (string Reason, int Count)[] rejected) =>
        new { passed, rejected = rejected.Select(reject => new { reason = reject.Reason, count = reject.Count }) };

    private static Task<JsonElement> Record(ShopHost shop, string batch, int step, object counts) =>
        shop.PostJson($"/api/batches/{batch}/steps/{step}/record", counts);

    private static async Task<JsonElement> Batch(ShopHost shop, string id) =>
        (await shop.GetJson($"/api/batches/{id}")).GetProperty("batch");

    private static async Task<int> CaneLeft(ShopHost shop) =>
        (await shop.GetJson("/api/cane"))[0].GetProperty("blanksLeft").GetInt32();

    private static async Task<string?> NextDay(ShopHost shop, string batch) =>
        (await shop.GetJson($"/api/batches/{batch}")).GetProperty("planned")[0].GetProperty("date").GetString();
}
