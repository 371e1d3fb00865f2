using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Catalogue;
using ReedShop.Demo;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Tests.Workshop;

public sealed class HistoryImportFacts
{
    private const string Steps = "/api/history/steps";
    private const string Grades = "/api/history/grades";
    private const string StepHeader = "batch,model,aim,caneLot,date,step,in,out\n";
    private const string OneBatch =
        StepHeader + "P1,clarinet,3,A,2026-11-02,profile,10,9\nP1,clarinet,3,A,2026-11-02,clip,9,8\n";

    [Fact]
    public async Task Good_rows_are_taken_and_bad_ones_come_back_with_line_and_reason()
    {
        await using var shop = await Open();

        var report = await Import(
            shop,
            Steps,
            StepHeader
                + "P1,clarinet,3,A,2026-11-02,profile,10,9\n"
                + "P1,clarinet,3,A,2026-11-02,clip,9,10\n"
                + "P2,oboe,3,A,2026-11-02,clip,9,9\n"
                + "P3,clarinet,3,A,2027-03-02,clip,9,9\n"
                + "P4,clarinet,3,A,2027-03-01,clip,9,9\n"
        );

        Assert.Equal((2, 0, 3), Counts(report));
        Assert.Equal([3, 4, 5], Bad(report).Select(bad => bad.Line));
        Assert.Equal("out is 10, but only 9 came in; write 0 to 9", Bad(report)[0].Reason);
        Assert.Equal(2, await Stored<PastStep>(shop));
    }

    [Fact]
    public async Task The_same_file_again_changes_nothing()
    {
        await using var shop = await Open();
        await Import(shop, Steps, OneBatch);
        var version = await SettledVersion(shop);

        var again = await Import(shop, Steps, OneBatch);

        Assert.Equal((0, 2, 0), Counts(again));
        Assert.Equal(version, await FactsVersion(shop));
    }

    [Fact]
    public async Task The_facts_move_when_something_was_taken()
    {
        await using var shop = await Open();
        var version = await SettledVersion(shop);

        await Import(shop, Steps, OneBatch);

        Assert.True(await FactsVersion(shop) > version);
    }

    [Fact]
    public async Task A_row_that_differs_from_what_is_stored_is_bad()
    {
        await using var shop = await Open();
        await Import(shop, Steps, OneBatch);

        Assert.Equal(
            "batch P1 has its step profile stored with other figures: aim 3, lot A, 2026-11-02, in 10, out 9, redo 0; write the same, or another batch",
            await OnlyFault(shop, "P1,clarinet,3,A,2026-11-02,profile,10,8")
        );
        Assert.Equal(
            "a batch has one model, and batch P1 is of model clarinet, as stored",
            await OnlyFault(shop, "P1,alto-saxophone,3,A,2026-11-03,play in,8,8")
        );
        Assert.Equal(
            "a batch has one aim, and batch P1 has aim 3, as stored",
            await OnlyFault(shop, "P1,clarinet,3.5,A,2026-11-03,play in,8,8")
        );
        Assert.Equal(
            (1, 0, 0),
            Counts(await Import(shop, Steps, StepHeader + "P1,clarinet,3,A,2026-11-03,play in,8,8\n"))
        );
    }

    [Fact]
    public async Task Strict_takes_all_rows_or_none()
    {
        await using var shop = await Open();
        var version = await SettledVersion(shop);

        var answer = await Post(shop, Steps + "?strict=true", OneBatch + "P1,clarinet,3,A,soon,play in,8,8\n");

        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        var report = problem.GetProperty("report");
        Assert.Equal((0, 0, 1), Counts(report));
        Assert.Equal(4, Assert.Single(Bad(report)).Line);
        Assert.Equal(0, await Stored<PastStep>(shop));
        Assert.Equal(version, await FactsVersion(shop));
        Assert.Equal((2, 0, 0), Counts(await Import(shop, Steps + "?strict=true", OneBatch)));
    }

    [Fact]
    public async Task Strict_minds_what_is_stored_too()
    {
        await using var shop = await Open();
        await Import(shop, Steps, OneBatch);

        var answer = await Post(
            shop,
            Steps + "?strict=true",
            StepHeader + "P2,clarinet,3,A,2026-11-02,clip,9,8\nP1,clarinet,3,A,2026-11-02,clip,9,7\n"
        );

        await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal(2, await Stored<PastStep>(shop));
    }

    [Fact]
    public async Task Grades_need_their_batch_and_no_more_reeds_than_it_kept()
    {
        await using var shop = await Open();
        await Import(shop, Steps, OneBatch + "P9,clarinet,,A,2026-11-02,fine flatten,9,8\n");

        var report = await Import(
            shop,
            Grades,
            "batch,strength,count\nP1,3,5\nP7,3,5\nP1,3.25,4\nP1,3.5,3\nP1,3.7,1\nP9,3,1\n"
        );

        Assert.Equal((2, 0, 4), Counts(report));
        Assert.Equal(
            [
                (3, "batch P7 is unknown; import its steps first"),
                (4, "batch P1 kept 8 at its last step, clip, and 5 are graded; write 0 to 3"),
                (
                    6,
                    "strength cannot be \"3.7\"; write a strength from 1 to 6 in quarter steps, such as 3, 3.25 or 3.5"
                ),
                (7, "batch P9 was imported without an aim, so its grades say nothing; give its steps an aim"),
            ],
            Bad(report)
        );
    }

    [Fact]
    public async Task Grades_again_change_nothing_and_others_for_the_same_strength_are_bad()
    {
        await using var shop = await Open();
        await Import(shop, Steps, OneBatch);
        await Import(shop, Grades, "batch,strength,count\nP1,3,5\n");

        var report = await Import(shop, Grades, "batch,strength,count\nP1,3,5\nP1,3.5,4\nP1,2.5,2\n");
        var other = await Import(shop, Grades, "batch,strength,count\nP1,3,4\n");

        Assert.Equal((1, 1, 1), Counts(report));
        Assert.Equal(
            (3, "batch P1 kept 8 at its last step, clip, and 5 are graded; write 0 to 3"),
            Assert.Single(Bad(report))
        );
        Assert.Equal(
            (2, "batch P1 has 5 of strength 3 stored; write the same, or another batch"),
            Assert.Single(Bad(other))
        );
    }

    [Fact]
    public async Task Imported_batches_stand_behind_the_yields()
    {
        await using var shop = await Open();
        var history = DemoHistory.Of(seed: 1, lastDay: new DateOnly(2027, 2, 28));

        var steps = await Import(shop, Steps, history.Steps);
        var grades = await Import(shop, Grades, history.Grades);

        Assert.Equal(0, Counts(steps).Bad + Counts(grades).Bad);
        Assert.Equal(DemoHistory.Batches * 7, Counts(steps).Taken);
        var yields = await shop.GetJson("/api/yields");
        Assert.Contains("clarinet", yields.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_with_one_file_does_as_well()
    {
        await using var shop = await Open();
        using var form = new MultipartFormDataContent
        {
            {
                new ByteArrayContent([.. Encoding.UTF8.GetPreamble(), .. Encoding.UTF8.GetBytes(OneBatch)]),
                "file",
                "past.csv"
            },
        };

        var report = await ShopHost.Read(await shop.Owner.PostAsync(Steps, form, Cancel));

        Assert.Equal((2, 0, 0), Counts(report));
    }

    [Fact]
    public async Task An_empty_file_is_refused_in_one_sentence()
    {
        await using var shop = await Open();

        var problem = await ShopHost.ReadProblem(
            await Post(shop, Grades, ""),
            HttpStatusCode.UnprocessableEntity,
            "invalid-value"
        );

        Assert.Equal("The file is empty.", problem.GetProperty("detail").GetString());
        Assert.Equal(
            "columns batch, strength, count, in any order, separated by commas",
            problem.GetProperty("allowed").GetString()
        );
    }

    [Fact]
    public async Task Only_the_owner_imports()
    {
        await using var shop = await Open();

        var answer = await shop.Guest.PostAsync(Steps, Csv(OneBatch), Cancel);

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
    }

    [Fact]
    public async Task A_hundred_thousand_rows_are_taken_within_half_a_minute()
    {
        await using var shop = await Open();
        var file = Long(batches: 12_500);
        var started = TimeProvider.System.GetTimestamp();

        var report = await Import(shop, Steps, file);

        var taken = TimeProvider.System.GetElapsedTime(started);
        TestContext.Current.SendDiagnosticMessage("100,000 rows taken in {0}", taken);
        Assert.Equal((100_000, 0, 0), Counts(report));
        Assert.InRange(taken, TimeSpan.Zero, TimeSpan.FromSeconds(30));
        Assert.Equal((0, 100_000, 0), Counts(await Import(shop, Steps, file)));
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>Eight rows a batch, as the usual file has.</summary>
    private static string Long(int batches)
    {
        string[] steps = ["fine flatten", "second rack", "sides", "profile", "clip", "play in", "play again", "grade"];
        var text = new StringBuilder(StepHeader);
        for (var batch = 0; batch < batches; batch++)
        {
            foreach (var step in steps)
            {
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"past {batch},clarinet,3.5,lot {batch % 40},2026-{1 + (batch % 12):00}-15,{step},{12 + (batch % 9)},{8 + (batch % 9)}\n"
                );
            }
        }

        return text.ToString();
    }

    private static async Task<ShopHost> Open()
    {
        var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        foreach (var ready in ReadyRoutes.All)
        {
            await shop.PutJson(
                $"/api/models/{ready.Model}",
                new
                {
                    name = ready.Name,
                    instrument = ready.Instrument,
                    cut = "",
                    strengths = new[] { 2.5, 3, 3.5 },
                    price = new { amount = 450, currency = "EUR" },
                    route = RouteShape.Of(ready.Route),
                }
            );
        }

        return shop;
    }

    private static ByteArrayContent Csv(string text)
    {
        var content = new ByteArrayContent(Encoding.UTF8.GetBytes(text));
        content.Headers.ContentType = new MediaTypeHeaderValue("text/csv");
        return content;
    }

    private static Task<HttpResponseMessage> Post(ShopHost shop, string path, string text) =>
        shop.Owner.PostAsync(path, Csv(text), Cancel);

    private static async Task<JsonElement> Import(ShopHost shop, string path, string text) =>
        await ShopHost.Read(await Post(shop, path, text));

    /// <summary>The reason why the only row of a file is bad.</summary>
    private static async Task<string> OnlyFault(ShopHost shop, string row) =>
        Assert.Single(Bad(await Import(shop, Steps, StepHeader + row + "\n"))).Reason;

    private static (int Taken, int Already, int Bad) Counts(JsonElement report) =>
        (
            report.GetProperty("taken").GetInt32(),
            report.GetProperty("already").GetInt32(),
            report.GetProperty("badCount").GetInt32()
        );

    private static (int Line, string Reason)[] Bad(JsonElement report) =>
        [
            .. report
                .GetProperty("bad")
                .EnumerateArray()
                .Select(bad => (bad.GetProperty("line").GetInt32(), bad.GetProperty("reason").GetString()!)),
        ];

    private static Task<int> Stored<T>(ShopHost shop)
        where T : class => shop.Within(services => services.GetRequiredService<ShopDb>().Set<T>().CountAsync(Cancel));

    /// <summary>The facts version once the plan in the background is up to date and moves it no more.</summary>
    private static async Task<long> SettledVersion(ShopHost shop)
    {
        while (await shop.Within(services => services.GetRequiredService<Replans>().IsOutdated(Cancel)))
        {
            await Task.Delay(20, Cancel);
        }

        return await FactsVersion(shop);
    }

    private static Task<long> FactsVersion(ShopHost shop) =>
        shop.Within(services =>
            services.GetRequiredService<ShopDb>().Set<FactsVersion>().Select(facts => facts.Version).SingleAsync(Cancel)
        );
}
