using static ReedShop.Tests.Workshop.PastRecords;

namespace ReedShop.Tests.Workshop;

public sealed class GradeImportFacts
{
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
}
