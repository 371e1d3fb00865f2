using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>The page of the jobs is the job library's own; here it must live with the security policy of the shop.</summary>
[Collection(FurnishedShop.Collection)]
public sealed class JobsPageFacts(FurnishedShop furnished)
{
    [Fact]
    public async Task It_opens_from_the_menu_and_breaks_no_rule_of_the_shop()
    {
        var before = furnished.Shop.Complaints.Count;
        var owner = await furnished.Shop.NewOwner();
        await owner.GetByRole(AriaRole.Link, new() { Name = "Jobs", Exact = true }).ClickAsync();
        await Expect(owner.GetByRole(AriaRole.Heading, new() { Name = "Overview" })).ToBeVisibleAsync();
        foreach (var part in new[] { "recurring", "jobs/succeeded", "jobs/deleted", "retries", "servers" })
        {
            var answer = await owner.GotoAsync($"/bench/jobs/{part}");
            Assert.Equal(200, answer!.Status);
        }

        Assert.Empty(furnished.Shop.AskedElsewhere);
        Assert.Empty(furnished.Shop.Complaints.Skip(before));
        await owner.Context.CloseAsync();
    }
}
