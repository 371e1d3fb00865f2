using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ReedShop.Platform.Storage;

/// <summary>What was told to the shop and is to be worked.</summary>
public sealed class InboxStore(ShopDb db, ShopClock clock)
{
    /// <summary>
    /// After so many attempts the owner is shown it; half a day has passed by then. It is tried on, about three times a day.
    /// </summary>
    public const int StuckAfter = 10;

    private static readonly TimeSpan Kept = TimeSpan.FromDays(90);

    /// <summary>Takes a word down. False if it had been before, by this process or another.</summary>
    public async Task<bool> Take(InboxMessage message, CancellationToken cancel)
    {
        if (await Has(message, cancel))
        {
            return false;
        }

        db.Add(message);
        try
        {
            await db.SaveChangesAsync(cancel);
            return true;
        }
        catch (DbUpdateException)
        {
            db.Entry(message).State = EntityState.Detached;
            if (await Has(message, cancel))
            {
                return false;
            }

            throw;
        }
    }

    public Task<List<InboxMessage>> Due(string source, int most, CancellationToken cancel)
    {
        var now = clock.NowUtc;
        return db.Set<InboxMessage>()
            .AsNoTracking()
            .Where(row => row.Source == source && row.WorkedUtc == null)
            .Where(row => row.NextTryUtc <= now && row.ArrivedUtc > now - Kept)
            .OrderBy(row => row.Id)
            .Take(most)
            .ToListAsync(cancel);
    }

    public Task MarkWorked(IReadOnlyCollection<long> ids, CancellationToken cancel)
    {
        var now = clock.NowUtc;
        return db.Set<InboxMessage>()
            .Where(row => ids.Contains(row.Id) && row.WorkedUtc == null)
            .ExecuteUpdateAsync(
                row => row.SetProperty(m => m.WorkedUtc, now).SetProperty(m => m.LastError, (string?)null),
                cancel
            );
    }

    /// <summary>Comes again later each time: 1, 2, 4 ... 512 minutes.</summary>
    public Task MarkFailed(IReadOnlyCollection<InboxMessage> messages, string error, CancellationToken cancel)
    {
        var ids = messages.Select(message => message.Id).ToArray();
        var next = clock.NowUtc.AddMinutes(1 << Math.Min(messages.Max(message => message.Attempts), StuckAfter - 1));
        return db.Set<InboxMessage>()
            .Where(row => ids.Contains(row.Id))
            .ExecuteUpdateAsync(
                row =>
                    row.SetProperty(m => m.Attempts, m => m.Attempts + 1)
                        .SetProperty(m => m.NextTryUtc, next)
                        .SetProperty(m => m.LastError, error),
                cancel
            );
    }

    public Task<List<InboxMessage>> Stuck(CancellationToken cancel) =>
        db.Set<InboxMessage>()
            .AsNoTracking()
            .Where(row => row.WorkedUtc == null && row.Attempts >= StuckAfter)
            .OrderBy(row => row.Id)
            .ToListAsync(cancel);

    /// <summary>No sender repeats itself for so long, and what could not be worked by then is for people.</summary>
    public Task<int> RemoveOld(CancellationToken cancel)
    {
        var oldest = clock.NowUtc - Kept;
        return db.Set<InboxMessage>().Where(row => row.ArrivedUtc < oldest).ExecuteDeleteAsync(cancel);
    }

    private Task<bool> Has(InboxMessage message, CancellationToken cancel) =>
        db.Set<InboxMessage>().AnyAsync(row => row.Source == message.Source && row.EventId == message.EventId, cancel);
}

internal sealed class InboxMapping : IEntityTypeConfiguration<InboxMessage>
{
    public void Configure(EntityTypeBuilder<InboxMessage> builder)
    {
        builder.ToTable("inbox");
        builder.HasIndex(row => new { row.Source, row.EventId }).IsUnique();
        builder.HasIndex(row => new { row.WorkedUtc, row.NextTryUtc });
    }
}
