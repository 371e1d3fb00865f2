using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Idempotency;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Platform;

public sealed class IdempotencyFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_same_key_and_body_get_the_first_answer_again()
    {
        await using var shop = await ShopWithModel();

        var first = await Buy(shop, "key-1", "2025 A");
        var again = await Buy(shop, "key-1", "2025 A");

        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        Assert.Equal(first.Headers.Location, again.Headers.Location);
        Assert.Equal(await Text(first), await Text(again));
        Assert.Equal(1, (await shop.GetJson("/api/cane")).GetArrayLength());
    }

    [Fact]
    public async Task The_same_key_with_another_body_is_refused()
    {
        await using var shop = await ShopWithModel();
        await Buy(shop, "key-1", "2025 A");

        var other = await Buy(shop, "key-1", "2025 B");

        await ShopHost.ReadProblem(other, HttpStatusCode.UnprocessableEntity, "key-reused");
        Assert.Equal(1, (await shop.GetJson("/api/cane")).GetArrayLength());
    }

    [Fact]
    public async Task A_refusal_is_not_remembered()
    {
        await using var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Buy(shop, "key-1", "2025 A")).StatusCode);
        await shop.PutJson("/api/models/clarinet", ExampleShop.Clarinet);

        var later = await Buy(shop, "key-1", "2025 A");

        Assert.Equal(HttpStatusCode.Created, later.StatusCode);
    }

    [Fact]
    public async Task Many_at_once_with_one_key_do_it_once()
    {
        await using var shop = await ShopWithModel();

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Buy(shop, "key-1", "2025 A")));

        Assert.All(answers, answer => Assert.Equal(HttpStatusCode.Created, answer.StatusCode));
        Assert.Equal(1, (await shop.GetJson("/api/cane")).GetArrayLength());
    }

    [Fact]
    public async Task A_crash_between_the_change_and_its_answer_still_does_it_once()
    {
        await using var shop = await ShopWithModel();
        await Buy(shop, "key-1", "2025 A");
        await shop.Within(async services =>
        {
            var db = services.GetRequiredService<ShopDb>();
            var answer = await db.Set<StoredAnswer>().SingleAsync(Cancel);
            (answer.Status, answer.Location) = (StatusOfTheChangeAlone, null);
            await db.SaveChangesAsync(Cancel);
        });

        var again = await Buy(shop, "key-1", "2025 A");

        Assert.Equal("2025 A", (await ShopHost.Read(again)).GetProperty("lot").GetString());
        Assert.Equal(1, (await shop.GetJson("/api/cane")).GetArrayLength());
    }

    [Fact]
    public async Task After_48_hours_a_key_may_be_used_again()
    {
        await using var shop = await ShopWithModel();
        await Buy(shop, "key-1", "2025 A");

        shop.Time.Advance(TimeSpan.FromHours(48));
        await shop.Tick("forget-old-answers");
        var kept = await Buy(shop, "key-1", "2025 B");
        shop.Time.Advance(TimeSpan.FromSeconds(1));
        await shop.Tick("forget-old-answers");
        var free = await Buy(shop, "key-1", "2025 B");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, kept.StatusCode);
        Assert.Equal(HttpStatusCode.Created, free.StatusCode);
    }

    private const int StatusOfTheChangeAlone = 200;

    private static async Task<ShopHost> ShopWithModel()
    {
        var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        await shop.PutJson("/api/models/clarinet", ExampleShop.Clarinet);
        return shop;
    }

    private static Task<HttpResponseMessage> Buy(ShopHost shop, string key, string lot) =>
        shop.Send(
            HttpMethod.Post,
            "/api/cane",
            new
            {
                lot,
                model = "clarinet",
                supplier = "A grower",
                harvest = 2023,
                seasonedFrom = "2025-01-01",
                blanks = 200,
            },
            ("Idempotency-Key", key)
        );

    private static Task<string> Text(HttpResponseMessage answer) => answer.Content.ReadAsStringAsync(Cancel);
}
