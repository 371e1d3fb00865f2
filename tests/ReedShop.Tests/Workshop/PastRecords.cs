using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Catalogue;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Tests.Workshop;

/// <summary>Files of past batches, what an import reports of them, and what it leaves in the database.</summary>
internal static class PastRecords
{
    public const string Steps = "/api/history/steps";
    public const string Grades = "/api/history/grades";
    public const string StepHeader = "batch,model,aim,caneLot,date,step,in,out\n";
    public const string OneBatch =
        StepHeader + "P1,clarinet,3,A,2026-11-02,profile,10,9\nP1,clarinet,3,A,2026-11-02,clip,9,8\n";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static async Task<ShopHost> Open()
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

    public static ByteArrayContent Csv(string text)
    {
        var content = new ByteArrayContent(Encoding.UTF8.GetBytes(text));
        content.Headers.ContentType = new MediaTypeHeaderValue("text/csv");
        return content;
    }

    public static Task<HttpResponseMessage> Post(ShopHost shop, string path, string text) =>
        shop.Owner.PostAsync(path, Csv(text), Cancel);

    public static async Task<JsonElement> Import(ShopHost shop, string path, string text) =>
        await ShopHost.Read(await Post(shop, path, text));

    /// <summary>The reason why the only row of a file is bad.</summary>
    public static async Task<string> OnlyFault(ShopHost shop, string row) =>
        Assert.Single(Bad(await Import(shop, Steps, StepHeader + row + "\n"))).Reason;

    public static (int Taken, int Already, int Bad) Counts(JsonElement report) =>
        (
            report.GetProperty("taken").GetInt32(),
            report.GetProperty("already").GetInt32(),
            report.GetProperty("badCount").GetInt32()
        );

    public static (int Line, string Reason)[] Bad(JsonElement report) =>
        [
            .. report
                .GetProperty("bad")
                .EnumerateArray()
                .Select(bad => (bad.GetProperty("line").GetInt32(), bad.GetProperty("reason").GetString()!)),
        ];

    public static Task<int> Stored<T>(ShopHost shop)
        where T : class => shop.Within(services => services.GetRequiredService<ShopDb>().Set<T>().CountAsync(Cancel));

    /// <summary>The facts version once the plan in the background is up to date and moves it no more.</summary>
    public static async Task<long> SettledVersion(ShopHost shop)
    {
        while (await shop.Within(services => services.GetRequiredService<Replans>().IsOutdated(Cancel)))
        {
            await Task.Delay(20, Cancel);
        }

        return await FactsVersion(shop);
    }

    public static Task<long> FactsVersion(ShopHost shop) =>
        shop.Within(services =>
            services.GetRequiredService<ShopDb>().Set<FactsVersion>().Select(facts => facts.Version).SingleAsync(Cancel)
        );
}
