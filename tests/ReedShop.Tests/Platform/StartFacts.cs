using System.Diagnostics;
using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Platform;

public sealed class StartFacts
{
    private const string AnyAddress = "http://127.0.0.1:0";

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

    [Fact]
    public async Task A_second_program_on_the_same_folder_says_why_and_ends()
    {
        await using var shop = await ShopHost.Start();

        var (exitCode, said) = await RunProgram(AnyAddress, ("ReedShop__DataFolder", shop.Folder));

        Assert.Equal(3, exitCode);
        Assert.Contains($"Another ReedShop is using {shop.Folder}.", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_address_that_is_taken_is_named()
    {
        await using var shop = await ShopHost.Start();
        using var folder = new TemporaryFolder();

        var (exitCode, said) = await RunProgram(shop.Address.ToString(), ("ReedShop__DataFolder", folder.Path));

        Assert.Equal(4, exitCode);
        Assert.Contains("choose another with --urls", said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ReedShop__OwnerToken", "short", "ReedShop__OwnerToken is too short")]
    [InlineData("ReedShop__DataFolder", "data", "ReedShop__DataFolder must be a whole path")]
    [InlineData("ReedShop__Mail__Host", "127.0.0.1", "ReedShop__Mail__From must be the e-mail address")]
    [InlineData("ReedShop__Mail__Security", "some", "'some' at 'ReedShop:Mail:Security'")]
    [InlineData("ReedShop__Stripe__SecretKey", "pk_live_1", "ReedShop__Stripe__SecretKey must be a secret")]
    [InlineData(
        "ReedShop__Stripe__SecretKey",
        "sk_test_1",
        "ReedShop__Stripe__WebhookSecret must be the signing secret"
    )]
    [InlineData("ReedShop__Stripe__WebhookSecret", "whsec_1", "set ReedShop__Stripe__SecretKey too")]
    [InlineData("ReedShop__Pdf__Font", "/no/such/font.ttf", "ReedShop__Pdf__Font must be the whole path of a TrueType")]
    public async Task A_wrong_setting_is_named_before_anything_opens(string name, string value, string sentence)
    {
        using var folder = new TemporaryFolder();

        var (exitCode, said) = await RunProgram(AnyAddress, ("ReedShop__DataFolder", folder.Path), (name, value));

        Assert.Equal(2, exitCode);
        Assert.Contains(sentence, said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(
        "ReedShop__Stripe__ApiBase",
        "http://127.0.0.1:9",
        "ReedShop__Stripe__ApiBase may be set with a test key only"
    )]
    [InlineData("ReedShop__PublicAddress", "http://reeds.example", "ReedShop__PublicAddress must be set, with https")]
    public async Task A_live_key_is_kept_where_it_belongs(string name, string value, string sentence)
    {
        using var folder = new TemporaryFolder();

        var (exitCode, said) = await RunProgram(
            AnyAddress,
            ("ReedShop__DataFolder", folder.Path),
            ("ReedShop__Stripe__SecretKey", "sk_live_never_real"),
            ("ReedShop__Stripe__WebhookSecret", "whsec_never_real"),
            (name, value)
        );

        Assert.Equal(2, exitCode);
        Assert.Contains(sentence, said, StringComparison.Ordinal);
        Assert.DoesNotContain("never_real", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_left_over_migration_lock_does_not_keep_the_shop_shut()
    {
        await using var shop = await ShopHost.Start();
        await shop.Within(services =>
            services
                .GetRequiredService<ShopDb>()
                .Database.ExecuteSqlRawAsync(
                    "INSERT INTO __EFMigrationsLock (Id, Timestamp) VALUES (1, '2027-02-28 23:00:00')",
                    Cancel
                )
        );

        await shop.Restart().WaitAsync(TimeSpan.FromSeconds(60), Cancel);

        Assert.Equal(HttpStatusCode.OK, (await shop.Guest.GetAsync("/health/ready", Cancel)).StatusCode);
    }

    [Fact]
    public async Task The_database_survives_a_power_cut_and_keeps_its_references()
    {
        await using var shop = await ShopHost.Start();

        var pragmas = await shop.Within(async services =>
        {
            var db = services.GetRequiredService<ShopDb>().Database;
            return (
                await db.SqlQueryRaw<string>("SELECT journal_mode AS Value FROM pragma_journal_mode")
                    .SingleAsync(Cancel),
                await db.SqlQueryRaw<int>("SELECT synchronous AS Value FROM pragma_synchronous").SingleAsync(Cancel),
                await db.SqlQueryRaw<int>("SELECT foreign_keys AS Value FROM pragma_foreign_keys").SingleAsync(Cancel)
            );
        });

        Assert.Equal(("wal", 2, 1), pragmas);
    }

    [Fact]
    public async Task What_is_due_is_done_without_anybody_asking()
    {
        await using var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.Settings);

        await shop.Tick("morning-reminder");

        await shop.Restart(("ReedShop:Ticks", "true"));

        var mail = Path.Combine(shop.Folder, "mail");
        await Until(() => Directory.Exists(mail) && Directory.GetFiles(mail, "*.eml").Length == 1);
    }

    [Fact]
    public async Task It_is_alive_and_ready()
    {
        await using var shop = await ShopHost.Start();

        Assert.Equal(HttpStatusCode.OK, (await shop.Guest.GetAsync("/health/alive", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await shop.Guest.GetAsync("/health/ready", Cancel)).StatusCode);
    }

    /// <summary>Jobs run in real time: once at the start and then every minute.</summary>
    private static async Task Until(Func<bool> done)
    {
        for (var seconds = 0; seconds < 150 && !done(); seconds++)
        {
            await Task.Delay(TimeSpan.FromSeconds(1), Cancel);
        }

        Assert.True(done());
    }

    /// <summary>The program as a process of its own, expected to end by itself.</summary>
    private static async Task<(int ExitCode, string Said)> RunProgram(
        string address,
        params (string Name, string Value)[] environment
    )
    {
        using var process = ShopProcess.Begin(address, environment.Select(set => (set.Name, (string?)set.Value)));
        try
        {
            var said = await process.StandardError.ReadToEndAsync(Cancel).WaitAsync(TimeSpan.FromSeconds(60), Cancel);
            await process.WaitForExitAsync(Cancel);
            return (process.ExitCode, said);
        }
        finally
        {
            if (!process.HasExited)
            {
                process.Kill();
            }
        }
    }
}
