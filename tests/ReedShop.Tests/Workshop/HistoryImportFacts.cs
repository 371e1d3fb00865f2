using System.Net;
using System.Text;
using ReedShop.Demo;
using ReedShop.Workshop;
using static ReedShop.Tests.Workshop.PastRecords;

namespace ReedShop.Tests.Workshop;

public sealed class HistoryImportFacts
{
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

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;
}
