using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Calendar;

public sealed class CalendarStore(ShopDb db)
{
    public Task<CalendarLink?> Find(CancellationToken cancel) =>
        db.Set<CalendarLink>().AsNoTracking().SingleOrDefaultAsync(cancel);

    public async Task<CalendarLink> FindForChange(CancellationToken cancel)
    {
        if (await db.Set<CalendarLink>().SingleOrDefaultAsync(cancel) is { } link)
        {
            return link;
        }

        return db.Add(new CalendarLink()).Entity;
    }

    /// <summary>Entries that may change: those that stand in the plan, or that are about what is open now.</summary>
    public async Task<Dictionary<string, CalendarEntry>> ForChange(
        IReadOnlyCollection<string> subjects,
        CancellationToken cancel
    ) =>
        await db.Set<CalendarEntry>()
            .Where(entry => entry.Stage == EntryStage.Planned || subjects.Contains(entry.Subject))
            .ToDictionaryAsync(entry => entry.Name, StringComparer.Ordinal, cancel);

    /// <summary>What is published: entries that end on that day or later, and what was cancelled since.</summary>
    public Task<List<CalendarEntry>> Published(DateOnly since, DateTime sinceUtc, CancellationToken cancel) =>
        db.Set<CalendarEntry>()
            .AsNoTracking()
            .Where(entry => entry.Stage == EntryStage.Cancelled ? entry.ChangedUtc >= sinceUtc : entry.LastDay >= since)
            .OrderBy(entry => entry.LastDay)
            .ThenBy(entry => entry.Name)
            .ToListAsync(cancel);

    public void Add(CalendarEntry entry) => db.Add(entry);

    /// <summary>False if somebody else changed the calendar first: nothing was saved then.</summary>
    public async Task<bool> TrySave(CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            return true;
        }
        catch (DbUpdateException fault) when (Races.IsLost(fault))
        {
            return false;
        }
    }
}

internal sealed class CalendarMapping : IEntityTypeConfiguration<CalendarLink>, IEntityTypeConfiguration<CalendarEntry>
{
    public void Configure(EntityTypeBuilder<CalendarLink> builder)
    {
        builder.ToTable("calendar_link");
        builder.Property(link => link.Id).ValueGeneratedNever();
        builder.Property(link => link.Version).IsConcurrencyToken();
        builder.Ignore(link => link.IsOpen);
    }

    public void Configure(EntityTypeBuilder<CalendarEntry> builder)
    {
        builder.ToTable("calendar_entries");
        builder.HasKey(entry => entry.Name);
        builder.HasIndex(entry => entry.LastDay);
        builder.HasIndex(entry => entry.Subject);
        builder.HasIndex(entry => entry.Stage);
        builder.Property(entry => entry.Content).AsJson();
    }
}
