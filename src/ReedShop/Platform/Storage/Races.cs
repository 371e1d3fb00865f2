using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace ReedShop.Platform.Storage;

/// <summary>Jobs may run twice at the same time; the database lets one of them be first.</summary>
internal static class Races
{
    private const int ConstraintBroken = 19;

    /// <summary>Somebody else wrote the same row, or changed the one that was read. Any other fault is one.</summary>
    public static bool IsLost(DbUpdateException fault) =>
        fault is DbUpdateConcurrencyException
        || fault.InnerException is SqliteException { SqliteErrorCode: ConstraintBroken };
}
