using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Platform;

public sealed class StartFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_new_shop_sells_nothing_and_has_no_settings()
    {
        await using var shop = await ShopHost.Start();

        var models = await shop.GetJson("/api/models");
        var settings = await shop.Owner.GetAsync("/api/shop", Cancel);

        Assert.Equal(0, models.GetArrayLength());
        await ShopHost.ReadProblem(settings, HttpStatusCode.NotFound, "not-found");
    }

    [Fact]
    public async Task The_migrated_database_is_the_one_the_program_describes()
    {
        await using var shop = await ShopHost.Start();

        await shop.Within(async services =>
        {
            var db = services.GetRequiredService<ShopDb>();
            Assert.False(db.Database.HasPendingModelChanges());
            Assert.Empty(await db.Database.GetPendingMigrationsAsync(Cancel));
        });
    }

    [Fact]
    public async Task Settings_outlive_a_restart()
    {
        await using var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.Settings);

        await shop.Restart();

        Assert.Equal("Harbour reeds", (await shop.GetJson("/api/shop")).GetProperty("name").GetString());
    }
}
