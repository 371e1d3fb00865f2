using System.Globalization;
using System.Net;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Storage;
using ReedShop.Tests.Reminders;
using ReedShop.Tests.Workshop;

namespace ReedShop.Tests.Platform;

/// <summary>The nightly copy of the database, and the way back to it.</summary>
public sealed class BackupFacts
{
    private const string Tick = "nightly-backup";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_copy_is_made_once_a_night_by_the_shops_clock()
    {
        await using var shop = await Opened("Australia/Lord_Howe");
        // 02:59 and 03:00 of 2 March on Lord Howe, 11 hours ahead.
        MakersMail.SetTime(shop, 1, 12);
        await shop.Tick(Tick);
        Assert.Equal(["reedshop-2027-03-01.db"], Copies(shop));

        MakersMail.SetTime(shop, 1, 15, 59);
        await shop.Tick(Tick);
        Assert.Single(Copies(shop));
        MakersMail.SetTime(shop, 1, 16);
        await shop.Tick(Tick);
        Assert.Equal(["reedshop-2027-03-01.db", "reedshop-2027-03-02.db"], Copies(shop));

        var made = File.GetLastWriteTimeUtc(PathOf(shop, "reedshop-2027-03-02.db"));
        await shop.Restart();
        await shop.Tick(Tick);
        Assert.Equal(made, File.GetLastWriteTimeUtc(PathOf(shop, "reedshop-2027-03-02.db")));
    }

    [Fact]
    public async Task A_service_that_slept_through_the_night_makes_it_when_it_wakes()
    {
        await using var shop = await Opened();

        MakersMail.SetTime(shop, 2, 14);
        await shop.Tick(Tick);

        Assert.Equal(["reedshop-2027-03-02.db"], Copies(shop));
    }

    [Fact]
    public async Task The_shop_comes_back_from_a_copy_as_it_was()
    {
        await using var shop = await ExampleReeds.NewShop();
        var before = await AtTheBench.Start(shop, 5);
        await shop.Tick(Tick);
        var after = await AtTheBench.Start(shop, 7);

        var folder = Directory.CreateTempSubdirectory("reedshop-restored-").FullName;
        File.Copy(PathOf(shop, Copies(shop).Single()), Path.Combine(folder, "reedshop.db"));
        await using (var restored = await ShopHost.Start(ShopHost.Monday, ("ReedShop:DataFolder", folder)))
        {
            Assert.Equal(5, (await AtTheBench.Batch(restored, before)).GetProperty("blanks").GetInt32());
            var gone = await restored.Owner.GetAsync($"/api/batches/{after}", Cancel);
            Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
            await AtTheBench.Record(restored, before, 1, AtTheBench.Kept(5));
        }

        Assert.Equal(7, (await AtTheBench.Batch(shop, after)).GetProperty("blanks").GetInt32());
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task What_is_written_meanwhile_tears_no_copy()
    {
        await using var shop = await ExampleReeds.NewShop();
        var backups = shop.Services.GetRequiredService<Backups>();
        using var done = new CancellationTokenSource();
        var writing = Task.Run(
            async () =>
            {
                for (var order = 0; !done.IsCancellationRequested; order++)
                {
                    await MakersMail.Write(shop, "left", Number(order));
                    await MakersMail.Write(shop, "right", Number(order));
                }
            },
            Cancel
        );

        for (var copy = 0; copy < 20; copy++)
        {
            await backups.Make(new DateOnly(2027, 3, 1), Cancel);
            var (left, right) = (Count(shop, "left"), Count(shop, "right"));
            Assert.InRange(left - right, 0, 1);
        }

        await done.CancelAsync();
        await writing;
        Assert.True(Count(shop, "left") > 0);
    }

    [Fact]
    public async Task Only_the_newest_are_kept()
    {
        await using var shop = await Opened("Europe/Lisbon", ("ReedShop:BackupsKept", "2"));
        await File.WriteAllTextAsync(Path.Combine(shop.Folder, "notes.txt"), "mine", Cancel);

        for (var day = 2; day <= 5; day++)
        {
            MakersMail.SetTime(shop, day, 4);
            await shop.Tick(Tick);
        }

        Assert.Equal(["reedshop-2027-03-04.db", "reedshop-2027-03-05.db"], Copies(shop));
        Assert.True(File.Exists(Path.Combine(shop.Folder, "notes.txt")));
    }

    [Fact]
    public async Task Whoever_wants_none_has_none()
    {
        await using var shop = await Opened("Europe/Lisbon", ("ReedShop:BackupsKept", "0"));

        await shop.Tick(Tick);

        Assert.Empty(Copies(shop));
    }

    [Fact]
    public async Task The_owner_sees_the_copies_and_makes_one()
    {
        await using var shop = await Opened();
        using var owner = await Visitor.Owner(shop);
        Assert.Contains("no copy yet", await owner.Read("/bench/backups"), StringComparison.Ordinal);

        await owner.Post("/bench/backups");

        Assert.Contains("reedshop-2027-03-01.db", await owner.Read("/bench/backups"), StringComparison.Ordinal);
        using var stranger = new Visitor(shop);
        Assert.Equal(HttpStatusCode.Redirect, (await stranger.Get("/bench/backups")).StatusCode);
    }

    private static async Task<ShopHost> Opened(
        string zone = "Europe/Lisbon",
        params IEnumerable<(string Name, string? Value)> settings
    )
    {
        var shop = await ShopHost.Start(null, settings);
        await shop.PutJson("/api/shop", ExampleShop.SettingsIn(zone));
        return shop;
    }

    private static string PathOf(ShopHost shop, string file) => Path.Combine(shop.Folder, "backups", file);

    private static string[] Copies(ShopHost shop) =>
        Directory.Exists(Path.Combine(shop.Folder, "backups"))
            ?
            [
                .. Directory
                    .GetFiles(Path.Combine(shop.Folder, "backups"))
                    .Select(file => Path.GetFileName(file))
                    .Order(StringComparer.Ordinal),
            ]
            : [];

    private static long Count(ShopHost shop, string kind)
    {
        using var copy = new SqliteConnection($"Data Source={PathOf(shop, Copies(shop).Single())};Pooling=False");
        copy.Open();
        using var command = copy.CreateCommand();
        command.CommandText = "SELECT COUNT(*) FROM outbox WHERE Kind = $kind";
        command.Parameters.AddWithValue("$kind", kind);
        return (long)command.ExecuteScalar()!;
    }

    private static string Number(int order) => order.ToString(CultureInfo.InvariantCulture);
}
