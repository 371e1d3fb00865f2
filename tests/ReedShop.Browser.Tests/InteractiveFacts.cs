using System.Diagnostics;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace ReedShop.Browser.Tests;

/// <summary>How soon a full week answers the maker's hands.</summary>
public sealed class InteractiveFacts
{
    private const int OpenBatches = 80;
    private const int Loads = 9;
    private const double MostMilliseconds = 1000;

    /// <summary>Sittings can be dragged once the script of the week has run.</summary>
    private const string ScriptRan = "() => document.querySelector('.week .do')?.draggable === true";

    [Fact]
    public async Task A_week_of_eighty_open_batches_answers_within_a_second()
    {
        await using var shop = await OpenShop.Furnished();
        await Fill(shop);
        var page = await shop.NewOwner();
        await page.GotoAsync("/bench/week");
        var (ready, answered) = (new List<double>(), new List<double>());
        for (var load = 0; load < Loads; load++)
        {
            var clock = Stopwatch.StartNew();
            await page.GotoAsync("/bench/week", new() { WaitUntil = WaitUntilState.Commit });
            await page.WaitForFunctionAsync(ScriptRan);
            await page.Keyboard.PressAsync("Tab");
            await Expect(page.Locator(":focus")).ToHaveTextAsync("Skip to the content");
            ready.Add(clock.Elapsed.TotalMilliseconds);

            await page.Locator(".week a.move").First.FocusAsync();
            clock.Restart();
            await page.Keyboard.PressAsync("Enter");
            await Expect(page.GetByLabel("From ")).ToBeVisibleAsync();
            answered.Add(clock.Elapsed.TotalMilliseconds);
        }

        TestContext.Current.SendDiagnosticMessage(
            $"week of {OpenBatches} open batches, {Loads} loads: answers the keyboard after {Median(ready):F0} ms "
                + $"(worst {ready.Max():F0}), and a move of a sitting after {Median(answered):F0} ms more"
        );
        Assert.True(Median(ready) < MostMilliseconds, $"{Median(ready)} ms");
        Assert.True(Median(answered) < MostMilliseconds, $"{Median(answered)} ms");
    }

    private static async Task Fill(OpenShop shop)
    {
        await shop.Host.PostJson(
            "/api/cane",
            new
            {
                lot = "measuring",
                model = "clarinet",
                supplier = "invented",
                harvest = 2020,
                seasonedFrom = "2021-01-01",
                blanks = 900,
            }
        );
        for (var open = await Open(shop); open < OpenBatches; open++)
        {
            await shop.Host.PostJson("/api/batches", new { model = "clarinet", blanks = 6 });
        }

        Assert.Equal(OpenBatches, await Open(shop));
        while ((await shop.Host.GetJson("/api/week")).GetProperty("outdated").GetBoolean())
        {
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }

    private static async Task<int> Open(OpenShop shop) =>
        (await shop.Host.GetJson("/api/batches?limit=200"))
            .GetProperty("items")
            .EnumerateArray()
            .Count(batch => batch.GetProperty("stage").GetString() is "planned" or "onBench");

    private static double Median(IEnumerable<double> times) => times.Order().ElementAt(Loads / 2);
}
