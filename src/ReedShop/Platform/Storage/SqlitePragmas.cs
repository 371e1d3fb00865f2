using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace ReedShop.Platform.Storage;

/// <summary>
/// Settings SQLite forgets with each connection: a promise that was given must survive a power cut (FULL), and a reader
/// waits for a writer rather than fail.
/// </summary>
internal sealed class SqlitePragmas : DbConnectionInterceptor
{
    private const string Pragmas = "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA busy_timeout = 15000;";

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(
        DbConnection connection,
        ConnectionEndEventData eventData,
        CancellationToken cancellationToken = default
    )
    {
        await using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        await command.ExecuteNonQueryAsync(cancellationToken);
    }
}
