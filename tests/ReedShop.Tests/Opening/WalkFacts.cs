using System.Net;

namespace ReedShop.Tests.Opening;

/// <summary>The walk through a new shop, step by step.</summary>
public sealed class WalkFacts
{
    private const string Walk = "/bench/opening";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_shop_that_has_just_been_opened_goes_on_with_the_walk()
    {
        await using var shop = await ShopHost.Start();
        using var owner = new Visitor(shop);

        var opened = await owner.OpenShop(Visitor.Code(shop));

        Assert.Equal(Walk, opened.Headers.Location?.OriginalString);
        await IsLeftAt(owner, "hours");
    }

    [Fact]
    public async Task A_shop_that_a_script_has_set_up_does_not()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = new Visitor(shop);

        var opened = await owner.OpenShop(Visitor.Code(shop));

        Assert.Equal("/bench/week", opened.Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task Every_step_is_kept_and_the_walk_is_taken_up_where_it_was_left()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        GoesTo("model", await owner.Post($"{Walk}/hours", Hours("18:00-20:00")));
        await IsLeftAt(owner, "model");
        GoesTo("cane", await AddClarinet(owner));
        await IsLeftAt(owner, "cane");
        GoesTo("past", await AddCane(owner));
        await IsLeftAt(owner, "past");
        GoesTo(
            "next",
            await owner.PostFrom($"{Walk}/past", $"{Walk}/sureness", ("version", "2"), ("confidence", "80"))
        );
        await IsLeftAt(owner, "next");

        var settings = await shop.GetJson("/api/shop");
        Assert.Equal("18:00", settings.GetProperty("hours").GetProperty("monday")[0].GetProperty("from").GetString());
        Assert.Equal(45, settings.GetProperty("rackBlanks").GetInt32());
        Assert.Equal(0.8, settings.GetProperty("confidence").GetDouble());
    }

    [Fact]
    public async Task Days_away_are_kept_with_the_hours_and_a_slip_in_them_keeps_nothing()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var slip = await owner.Post(
            $"{Walk}/hours",
            [.. Hours("18:00-20:00"), ("first", "2027-03-09"), ("last", "2027-03-01")]
        );
        var before = await shop.GetJson("/api/shop");
        GoesTo(
            "model",
            await owner.Post(
                $"{Walk}/hours",
                [.. Hours("18:00-20:00"), ("first", "2027-03-09"), ("last", "2027-03-10"), ("reason", "concert")]
            )
        );

        Assert.Equal(HttpStatusCode.UnprocessableEntity, slip.StatusCode);
        Assert.Contains(
            "value=\"18:00-20:00\"",
            await slip.Content.ReadAsStringAsync(Cancel),
            StringComparison.Ordinal
        );
        Assert.Equal("19:00", before.GetProperty("hours").GetProperty("monday")[0].GetProperty("from").GetString());
        Assert.Equal(2, (await shop.GetJson("/api/shop")).GetProperty("otherDays").GetArrayLength());
    }

    [Fact]
    public async Task A_rack_smaller_than_a_usual_batch_makes_batches_smaller()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        GoesTo("model", await owner.Post($"{Walk}/hours", [.. Hours("18:00-20:00", "10")]));

        Assert.Equal(10, (await shop.GetJson("/api/shop")).GetProperty("mostBlanksPerBatch").GetInt32());
    }

    [Fact]
    public async Task Back_at_the_first_step_the_shop_gets_another_name()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        GoesTo(
            "hours",
            await owner.Post(
                $"{Walk}/shop",
                ("version", "1"),
                ("name", "Quay reeds"),
                ("email", "maker@example.org"),
                ("zone", "Europe/Lisbon"),
                ("currency", "EUR")
            )
        );
        var nowhere = await owner.Post(
            $"{Walk}/shop",
            ("version", "2"),
            ("name", "Quay reeds"),
            ("email", "maker@example.org"),
            ("zone", "the harbour"),
            ("currency", "EUR")
        );

        Assert.Equal("Quay reeds", (await shop.GetJson("/api/shop")).GetProperty("name").GetString());
        Assert.Contains(
            "such as Europe/Lisbon",
            await nowhere.Content.ReadAsStringAsync(Cancel),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Without_past_batches_the_surest_promise_that_can_be_given_is_suggested()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await AddClarinet(owner);
        await AddCane(owner);

        var page = await owner.Read($"{Walk}/past");
        var next = await owner.Read($"{Walk}/next");

        Assert.Contains("no date can be promised yet", page, StringComparison.Ordinal);
        Assert.Matches("value=\"80\" checked", page);
        Assert.Contains("keep about 81 blanks of 100", page, StringComparison.Ordinal);
        Assert.Contains("What comes next", next, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_empty_table_has_a_batch_of_its_own_for_each_model()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await AddClarinet(owner);
        await shop.PutJson("/api/models/bass", ExampleShop.Clarinet);

        var steps = (await owner.Read($"{Walk}/past/steps.csv")).Split('\n')[1..^1];
        var grades = (await owner.Read($"{Walk}/past/grades.csv")).Split('\n')[1..^1];

        Assert.Equal(2, steps.Select(row => row.Split(',')[1]).Distinct().Count());
        Assert.Equal(["1", "2"], steps.Select(row => row.Split(',')[0]).Distinct());
        Assert.Equal(["1", "2"], grades.Select(row => row.Split(',')[0]).Distinct());
        Assert.All(
            steps.GroupBy(row => row.Split(',')[0]),
            batch => Assert.Single(batch.Select(row => row.Split(',')[1]).Distinct())
        );
    }

    [Fact]
    public async Task The_empty_table_names_the_makers_own_steps_and_holds_no_counts()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        await AddClarinet(owner);

        var steps = await owner.Read($"{Walk}/past/steps.csv");
        var sent = await Upload.Steps(owner, steps, $"{Walk}/past", $"{Walk}/past", "steps");
        var filled = await Upload.Steps(
            owner,
            steps.Replace(
                "1,clarinet,2.5,,,profile,,",
                "1,clarinet,2.5,,2026-11-02,profile,10,9",
                StringComparison.Ordinal
            ),
            $"{Walk}/past",
            $"{Walk}/past",
            "steps"
        );

        Assert.StartsWith("batch,model,aim,caneLot,date,step,in,out\n", steps, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "past batch is known",
            await sent.Content.ReadAsStringAsync(Cancel),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "1 past batch is known",
            await filled.Content.ReadAsStringAsync(Cancel),
            StringComparison.Ordinal
        );
    }

    private static async Task IsLeftAt(Visitor owner, string step) =>
        Assert.Equal($"{Walk}/{step}", (await owner.Get(Walk)).Headers.Location?.OriginalString);

    private static void GoesTo(string step, HttpResponseMessage answer)
    {
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        Assert.Equal($"{Walk}/{step}", answer.Headers.Location?.OriginalString);
    }

    private static (string Name, string Value)[] Hours(string monday, string rack = "45") =>
        [
            ("version", "1"),
            ("Monday", monday),
            ("shipDays", "Tuesday"),
            ("rackBlanks", rack),
            ("lengthUnit", "Millimetre"),
        ];

    private static Task<HttpResponseMessage> AddClarinet(Visitor owner) =>
        owner.Post($"{Walk}/model", ("ready", "clarinet"), ("price", "25"), ("strengths", "2.5, 3, 3½"));

    private static Task<HttpResponseMessage> AddCane(Visitor owner) =>
        owner.Post(
            $"{Walk}/cane",
            ("lot", "2027 A"),
            ("model", "clarinet"),
            ("harvest", "2025"),
            ("seasonedFrom", "2027-01-01"),
            ("blanks", "200")
        );
}
