using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace ReedShop.Platform.Storage;

/// <summary>Lets `dotnet ef migrations` read the tables without starting a shop.</summary>
internal sealed class DesignTimeShopDb : IDesignTimeDbContextFactory<SqliteShopDb>
{
    public SqliteShopDb CreateDbContext(string[] args)
    {
        var services = new ServiceCollection().Configure<IdentityOptions>(ShopDb.ConfigureAccounts);
        return new SqliteShopDb(
            new DbContextOptionsBuilder<SqliteShopDb>()
                .UseSqlite("Data Source=design-time.db")
                .UseApplicationServiceProvider(services.BuildServiceProvider())
                .Options
        );
    }
}
