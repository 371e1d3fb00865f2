using System.Net;
using System.Text.RegularExpressions;
using Hangfire;
using Hangfire.Storage;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Ticks;
using ReedShop.Tests.Reminders;

namespace ReedShop.Tests.Platform;

/// <summary>The jobs that the program starts by itself, and the page that shows them.</summary>
public sealed partial class JobFacts
{
    private const string Page = "/bench/jobs";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static (string, string?) Ticking => ("ReedShop:Ticks", "true");

    [Theory]
    [InlineData("")]
    [InlineData("/recurring")]
    [InlineData("/jobs/succeeded")]
    public async Task Only_the_owners_cookie_opens_the_page_of_the_jobs(string part)
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        using var stranger = new Visitor(shop);

        var turnedAway = await stranger.Get(Page + part);
        Assert.Equal(HttpStatusCode.Redirect, turnedAway.StatusCode);
        Assert.StartsWith("/sign-in", turnedAway.Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        var byToken = await shop.Owner.GetAsync(Page + part, Cancel);
        Assert.DoesNotContain("Recurring", await byToken.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await stranger.PostWith("none", $"{Page}/stats")).StatusCode);
        var opened = await owner.Get(Page + part);
        Assert.Equal(HttpStatusCode.OK, opened.StatusCode);
        Assert.Contains("Recurring", await opened.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_page_of_the_jobs_runs_no_script_but_its_own()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var opened = await owner.Get(Page);

        var policy = string.Join(' ', opened.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'self'; style-src 'self' 'unsafe-inline'; ", policy, StringComparison.Ordinal);
        var other = await owner.Get("/bench/letters");
        Assert.DoesNotContain(
            "unsafe",
            string.Join(' ', other.Headers.GetValues("Content-Security-Policy")),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("script-src", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("'unsafe-eval'", policy, StringComparison.Ordinal);
        var html = await opened.Content.ReadAsStringAsync(Cancel);
        Assert.DoesNotMatch("<script(?![^>]*src=)[^>]*>", html);
        Assert.DoesNotContain("onclick=", html, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task The_owner_runs_a_job_by_hand_and_no_other_page_can()
    {
        await using var shop = await ShopHost.Start(null, Ticking);
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        using var owner = await Visitor.Owner(shop);
        var html = await owner.Read($"{Page}/recurring");
        Assert.Contains("nightly-backup", html, StringComparison.Ordinal);
        Assert.Contains("morning-reminder", html, StringComparison.Ordinal);

        var forged = await owner.PostWith("forged", $"{Page}/recurring/trigger", ("jobs[]", "low-cane"));
        Assert.Equal(HttpStatusCode.BadRequest, forged.StatusCode);

        var token = Token().Match(html).Groups["token"].Value;
        Assert.NotEmpty(token);
        using var request = new HttpRequestMessage(HttpMethod.Post, $"{Page}/recurring/trigger")
        {
            Content = new FormUrlEncodedContent([KeyValuePair.Create("jobs[]", "low-cane")]),
        };
        request.Headers.Add("RequestVerificationToken", token);
        var triggered = await owner.Browser.SendAsync(request, Cancel);
        Assert.Equal(HttpStatusCode.NoContent, triggered.StatusCode);
    }

    [Fact]
    public async Task Every_tick_is_a_job_and_runs_by_itself()
    {
        await using var shop = await ShopHost.Start(null, Ticking);

        var names = shop.Services.GetServices<TickName>().Select(tick => tick.Name).Order().ToArray();
        using var jobs = shop.Services.GetRequiredService<JobStorage>().GetConnection();
        Assert.Equal(names, jobs.GetRecurringJobs().Select(job => job.Id).Order());
        await Until(() => Task.FromResult(jobs.GetRecurringJobs().All(job => job.LastJobState == "Succeeded")));
    }

    [Fact]
    public async Task A_letter_that_fell_due_while_the_program_was_off_goes_out_once_when_it_starts()
    {
        await using var shop = await ShopHost.Start(new DateTimeOffset(2027, 3, 1, 6, 59, 0, TimeSpan.Zero));
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        MakersMail.SetTime(shop, 1, 9);

        await shop.Restart(Ticking);
        await Until(() => Task.FromResult(Written(shop) > 0));
        await shop.Restart(Ticking);
        await shop.Restart(Ticking);
        await Until(() => IsQuiet(shop));

        Assert.Equal(["day-list"], MakersMail.Sent(shop));
    }

    [Fact]
    public async Task A_job_that_meets_a_fault_is_not_told_as_done()
    {
        await using var shop = await ShopHost.Start();

        await shop.Within(async services =>
        {
            var runner = services.GetRequiredService<TickRunner>();
            await Assert.ThrowsAsync<InvalidOperationException>(() => runner.Run("no such tick", Cancel));
        });
    }

    private static int Written(ShopHost shop) => MakersMail.Sent(shop).Length;

    /// <summary>All jobs of this start have run.</summary>
    private static Task<bool> IsQuiet(ShopHost shop)
    {
        using var jobs = shop.Services.GetRequiredService<JobStorage>().GetConnection();
        return Task.FromResult(jobs.GetRecurringJobs().All(job => job.LastJobState == "Succeeded"));
    }

    private static async Task Until(Func<Task<bool>> holds)
    {
        var since = System.Diagnostics.Stopwatch.StartNew();
        while (!await holds())
        {
            Assert.True(since.Elapsed < Patience, "it did not come about");
            await Task.Delay(100, Cancel);
        }
    }

    [GeneratedRegex(
        "name=\"csrf-token\" content=\"(?<token>[^\"]+)\"",
        RegexOptions.ExplicitCapture | RegexOptions.IgnoreCase,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex Token();
}
