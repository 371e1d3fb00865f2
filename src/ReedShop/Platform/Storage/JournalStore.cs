using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ReedShop.Platform.Storage;

/// <summary>Adds journal entries to the transaction that caused them.</summary>
public sealed class JournalStore(ShopDb db, ShopClock clock)
{
    public void Write(string who, string subject, string text) =>
        db.Add(
            new JournalEntry
            {
                AtUtc = clock.NowUtc,
                Who = who,
                Subject = subject,
                Text = text,
            }
        );

    /// <summary>All that was done to some things, the newest first.</summary>
    public Task<List<JournalEntry>> About(IReadOnlyCollection<string> subjects, CancellationToken cancel) =>
        db.Set<JournalEntry>()
            .AsNoTracking()
            .Where(entry => subjects.Contains(entry.Subject))
            .OrderByDescending(entry => entry.Id)
            .ToListAsync(cancel);

    public Task<List<JournalEntry>> Latest(string? subject, int limit, CancellationToken cancel) =>
        db.Set<JournalEntry>()
            .AsNoTracking()
            .Where(entry => subject == null || entry.Subject == subject)
            .OrderByDescending(entry => entry.Id)
            .Take(limit)
            .ToListAsync(cancel);
}

internal sealed class JournalMapping : IEntityTypeConfiguration<JournalEntry>
{
    public void Configure(EntityTypeBuilder<JournalEntry> builder)
    {
        builder.ToTable("journal");
        builder.HasIndex(entry => entry.Subject);
    }
}
