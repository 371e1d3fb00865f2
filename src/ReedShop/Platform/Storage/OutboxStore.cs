using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ReedShop.Platform.Storage;

public sealed class OutboxStore(ShopDb db, ShopClock clock)
{
    /// <summary>After so many attempts a message waits for the owner to look at it.</summary>
    public const int MostAttempts = 8;

    /// <summary>Adds a message to the running transaction; the caller saves.</summary>
    public void Add(string kind, string subject, string to, string title, string text) =>
        db.Add(
            new OutboxMessage
            {
                Kind = kind,
                Subject = subject,
                To = to,
                Title = title,
                Text = text,
                CreatedUtc = clock.NowUtc,
                NextTryUtc = clock.NowUtc,
                MessageId = $"{kind}.{Links.New()}@reedshop.invalid",
            }
        );

    public Task<bool> Has(string kind, string subject, CancellationToken cancel) =>
        db.Set<OutboxMessage>().AnyAsync(message => message.Kind == kind && message.Subject == subject, cancel);

    public Task<List<OutboxMessage>> Due(int most, CancellationToken cancel)
    {
        var now = clock.NowUtc;
        return db.Set<OutboxMessage>()
            .Where(m => m.SentUtc == null && m.NextTryUtc <= now && m.Attempts < MostAttempts)
            .OrderBy(message => message.Id)
            .Take(most)
            .ToListAsync(cancel);
    }

    public Task<List<OutboxMessage>> Undelivered(CancellationToken cancel) =>
        db.Set<OutboxMessage>()
            .AsNoTracking()
            .Where(message => message.SentUtc == null)
            .OrderBy(message => message.Id)
            .ToListAsync(cancel);

    public Task Save(CancellationToken cancel) => db.SaveChangesAsync(cancel);
}

internal sealed class OutboxMapping : IEntityTypeConfiguration<OutboxMessage>
{
    public void Configure(EntityTypeBuilder<OutboxMessage> builder)
    {
        builder.ToTable("outbox");
        builder.HasIndex(message => new { message.Kind, message.Subject }).IsUnique();
        builder.HasIndex(message => message.SentUtc);
    }
}
