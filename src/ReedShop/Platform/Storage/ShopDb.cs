using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using ReedShop.Planning;

namespace ReedShop.Platform.Storage;

/// <summary>
/// The shop's tables. Capabilities bring their own mappings, which are found by scanning, so that this room knows none
/// of them by name.
/// </summary>
public abstract class ShopDb(DbContextOptions options)
    : IdentityUserContext<IdentityUser>(options),
        IDataProtectionKeyContext
{
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    /// <summary>
    /// Version 3 has the passkey table. The base class takes it from the options of the services it runs with, so the
    /// tool that writes migrations must be given the same options as the running shop.
    /// </summary>
    public static void ConfigureAccounts(IdentityOptions identity) =>
        identity.Stores.SchemaVersion = IdentitySchemaVersions.Version3;

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.ApplyConfigurationsFromAssembly(typeof(ShopDb).Assembly);
    }

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcInstant>();
        configurationBuilder.Properties<Strength>().HaveConversion<StrengthQuarters>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>();
    }

    private sealed class UtcInstant()
        : Microsoft.EntityFrameworkCore.Storage.ValueConversion.ValueConverter<DateTime, DateTime>(
            instant => instant,
            stored => DateTime.SpecifyKind(stored, DateTimeKind.Utc)
        );

    private sealed class StrengthQuarters()
        : Microsoft.EntityFrameworkCore.Storage.ValueConversion.ValueConverter<Strength, int>(
            strength => strength.Quarters,
            quarters => Strength.OfQuarters(quarters)
        );
}

/// <summary>The embedded default: one SQLite file in the data folder.</summary>
public sealed class SqliteShopDb(DbContextOptions<SqliteShopDb> options) : ShopDb(options);
