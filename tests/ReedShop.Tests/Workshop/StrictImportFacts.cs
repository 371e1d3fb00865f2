using System.Net;
using ReedShop.Workshop;
using static ReedShop.Tests.Workshop.PastRecords;

namespace ReedShop.Tests.Workshop;

public sealed class StrictImportFacts
{
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
}
