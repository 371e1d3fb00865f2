using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Layout;

namespace ReedShop.Platform.Storage;

public sealed class OutboxStore(ShopDb db, ShopClock clock)
{
    /// <summary>After so many attempts a message waits for the owner to look at it.</summary>
    public const int MostAttempts = 8;

    /// <summary>Adds a message to the running transaction; the caller saves.</summary>
    /// <param name="asked">Its reader waits for it: it goes out in quiet hours too.</param>
    /// <param name="stopLink">Where its reader stops letters of this kind.</param>
    /// <param name="language">What it is written in; the shop's usual one where none is said.</param>
    public void Add(
        string kind,
        string subject,
        string to,
        string title,
        string text,
        bool asked = false,
        string? stopLink = null,
        string? language = null
    ) =>
        db.Add(
            new OutboxMessage
            {
                Kind = kind,
                Subject = subject,
                To = to,
                Title = title,
                Text = text,
                Language = language ?? Languages.Usual.Name,
                Asked = asked,
                StopLink = stopLink,
                CreatedUtc = clock.NowUtc,
                NextTryUtc = clock.NowUtc,
                MessageId = $"{kind}.{Links.New()}@reedshop.invalid",
            }
        );

    public Task<bool> Has(string kind, string subject, CancellationToken cancel) =>
        db.Set<OutboxMessage>().AnyAsync(message => message.Kind == kind && message.Subject == subject, cancel);

    /// <param name="onlyAsked">Whatever nobody waits for stays for the morning.</param>
    public Task<List<OutboxMessage>> Due(int most, bool onlyAsked, CancellationToken cancel)
    {
        var now = clock.NowUtc;
        return db.Set<OutboxMessage>()
            .Where(m => m.SentUtc == null && m.NextTryUtc <= now && m.Attempts < MostAttempts)
            .Where(m => m.Asked || !onlyAsked)
            .OrderBy(message => message.Id)
            .Take(most)
            .ToListAsync(cancel);
    }

    /// <summary>
    /// Takes a message for one attempt: nobody else takes it until the next try, which comes later each time. False
    /// if somebody else was first.
    /// </summary>
    public async Task<bool> TryLease(OutboxMessage message, CancellationToken cancel)
    {
        var attempts = message.Attempts + 1;
        var nextTry = clock.NowUtc + Wait(attempts);
        var taken = await db.Set<OutboxMessage>()
            .Where(row => row.Id == message.Id && row.SentUtc == null && row.Attempts == message.Attempts)
            .ExecuteUpdateAsync(
                row => row.SetProperty(m => m.Attempts, attempts).SetProperty(m => m.NextTryUtc, nextTry),
                cancel
            );
        await db.Entry(message).ReloadAsync(cancel);
        return taken == 1;
    }

    public Task MarkSent(OutboxMessage message, CancellationToken cancel)
    {
        message.SentUtc = clock.NowUtc;
        message.LastError = null;
        return db.SaveChangesAsync(cancel);
    }

    public Task MarkFailed(OutboxMessage message, string error, CancellationToken cancel)
    {
        message.LastError = error;
        return db.SaveChangesAsync(cancel);
    }

    /// <summary>For the owner who has mended what kept messages from leaving.</summary>
    public Task TryAllAgain(CancellationToken cancel)
    {
        var now = clock.NowUtc;
        return db.Set<OutboxMessage>()
            .Where(message => message.SentUtc == null)
            .ExecuteUpdateAsync(row => row.SetProperty(m => m.Attempts, 0).SetProperty(m => m.NextTryUtc, now), cancel);
    }

    /// <summary>The same for one message. False if there is none that waits.</summary>
    public async Task<bool> TryAgain(long id, CancellationToken cancel)
    {
        var now = clock.NowUtc;
        var again = await db.Set<OutboxMessage>()
            .Where(message => message.Id == id && message.SentUtc == null)
            .ExecuteUpdateAsync(row => row.SetProperty(m => m.Attempts, 0).SetProperty(m => m.NextTryUtc, now), cancel);
        return again == 1;
    }

    /// <summary>Messages given up although others got through since they were written: the fault is with them.</summary>
    public Task<List<OutboxMessage>> GivenUp(CancellationToken cancel) =>
        db.Set<OutboxMessage>()
            .AsNoTracking()
            .Where(m => m.SentUtc == null && m.Attempts >= MostAttempts && m.LastError != null)
            .Where(m => db.Set<OutboxMessage>().Any(other => other.SentUtc > m.CreatedUtc))
            .OrderBy(message => message.Id)
            .ToListAsync(cancel);

    public Task<List<OutboxMessage>> Undelivered(CancellationToken cancel) =>
        db.Set<OutboxMessage>()
            .AsNoTracking()
            .Where(message => message.SentUtc == null)
            .OrderBy(message => message.Id)
            .ToListAsync(cancel);

    /// <summary>What was written about one thing, the newest first.</summary>
    /// <param name="subject">Such as "order 12": whatever else was told of it begins so too.</param>
    public Task<List<OutboxMessage>> About(
        string subject,
        IReadOnlyCollection<string> kinds,
        CancellationToken cancel
    ) =>
        db.Set<OutboxMessage>()
            .AsNoTracking()
            .Where(m => kinds.Contains(m.Kind) && (m.Subject == subject || m.Subject.StartsWith(subject + ",")))
            .OrderByDescending(message => message.Id)
            .ToListAsync(cancel);

    /// <summary>All that was written about one thing, whoever it went to, the newest first.</summary>
    public Task<List<OutboxMessage>> About(string subject, CancellationToken cancel) =>
        db.Set<OutboxMessage>()
            .AsNoTracking()
            .Where(m => m.Subject == subject || m.Subject.StartsWith(subject + ","))
            .OrderByDescending(message => message.Id)
            .ToListAsync(cancel);

    public Task Save(CancellationToken cancel) => db.SaveChangesAsync(cancel);

    /// <summary>Saves what a job of its own has written. False if another has just written the same: it is told once.</summary>
    public async Task<bool> TrySave(CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            return true;
        }
        catch (DbUpdateException fault) when (Races.IsLost(fault))
        {
            db.ChangeTracker.Clear();
            return false;
        }
    }

    /// <summary>2, 4, 8 ... minutes: eight attempts span about four hours, a usual outage of a mail server.</summary>
    private static TimeSpan Wait(int attempts) => TimeSpan.FromMinutes(1 << Math.Min(attempts, MostAttempts));
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
