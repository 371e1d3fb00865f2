using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Options;

namespace ReedShop.Platform.Storage;

/// <summary>A copy of the database of one day.</summary>
public sealed record Backup(DateOnly Day, string File, long Bytes, DateTime MadeUtc);

/// <summary>
/// Copies of the database in the data folder, one a day, the newest kept. A copy is what the database was at one moment,
/// whatever is written meanwhile, and has its place only once it was read through and found whole.
/// </summary>
public sealed class Backups(DataFolder folder, IOptions<ReedShopOptions> options) : IDisposable
{
    private const string Start = "reedshop-";
    private const string End = ".db";
    private const string Day = "yyyy-MM-dd";

    private readonly SemaphoreSlim turn = new(1, 1);

    public int Kept => options.Value.BackupsKept;

    public string Folder => folder.Backups;

    /// <summary>The newest first.</summary>
    public IReadOnlyList<Backup> All() =>
        Directory.Exists(folder.Backups)
            ?
            [
                .. new DirectoryInfo(folder.Backups)
                    .GetFiles($"{Start}*{End}")
                    .Select(Read)
                    .OfType<Backup>()
                    .OrderByDescending(backup => backup.Day),
            ]
            : [];

    /// <summary>Makes the copy of a day, in place of one that was made of it before.</summary>
    public async Task Make(DateOnly day, CancellationToken cancel)
    {
        await turn.WaitAsync(cancel);
        try
        {
            await Task.Run(() => Write(day), cancel);
        }
        finally
        {
            turn.Release();
        }
    }

    public void Dispose() => turn.Dispose();

    private void Write(DateOnly day)
    {
        Directory.CreateDirectory(folder.Backups);
        var whole = Path.Combine(folder.Backups, $"{Start}{day.ToString(Day, CultureInfo.InvariantCulture)}{End}");
        var unfinished = $"{whole}.part";
        File.Delete(unfinished);
        Copy(unfinished);
        File.Move(unfinished, whole, overwrite: true);
        foreach (var old in All().Skip(Kept))
        {
            File.Delete(Path.Combine(folder.Backups, old.File));
        }
    }

    private void Copy(string path)
    {
        using var copy = Open(path);
        using (var database = Open(folder.Database))
        {
            database.BackupDatabase(copy);
        }

        // Without a log beside it the copy is one file, which can be put away as it is.
        Ask(copy, "PRAGMA journal_mode = DELETE;");
        if (Ask(copy, "PRAGMA integrity_check;") is not "ok" and var fault)
        {
            throw new IOException($"The copy of the database is not whole: {fault}");
        }
    }

    private static SqliteConnection Open(string path)
    {
        var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        return connection;
    }

    private static string? Ask(SqliteConnection connection, string question)
    {
        using var command = connection.CreateCommand();
        command.CommandText = question;
        return command.ExecuteScalar() as string;
    }

    private static Backup? Read(FileInfo file) =>
        DateOnly.TryParseExact(
            file.Name[Start.Length..^End.Length],
            Day,
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? new Backup(day, file.Name, file.Length, file.LastWriteTimeUtc)
            : null;
}
