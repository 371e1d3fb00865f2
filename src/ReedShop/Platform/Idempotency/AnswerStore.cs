using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Platform.Idempotency;

public sealed class AnswerStore(ShopDb db, ShopClock clock)
{
    public static readonly TimeSpan Kept = TimeSpan.FromHours(48);

    public Task<StoredAnswer?> Find(KeyedRequest request, CancellationToken cancel) =>
        db.Set<StoredAnswer>()
            .SingleOrDefaultAsync(
                answer => answer.Caller == request.Caller && answer.Path == request.Path && answer.Key == request.Key,
                cancel
            );

    /// <summary>Adds the result of a change to the transaction that makes it; the caller saves.</summary>
    public StoredAnswer Add<T>(KeyedRequest request, T result)
    {
        var answer = new StoredAnswer
        {
            Caller = request.Caller,
            Path = request.Path,
            Key = request.Key,
            BodyHash = request.BodyHash,
            StoredUtc = clock.NowUtc,
            Body = JsonSerializer.Serialize(result, ShopJson.Options),
        };
        db.Add(answer);
        return answer;
    }

    public Task Save(CancellationToken cancel) => db.SaveChangesAsync(cancel);

    public Task<int> RemoveOld(CancellationToken cancel)
    {
        var oldest = clock.NowUtc - Kept;
        return db.Set<StoredAnswer>().Where(answer => answer.StoredUtc < oldest).ExecuteDeleteAsync(cancel);
    }
}

internal sealed class AnswerMapping : IEntityTypeConfiguration<StoredAnswer>
{
    public void Configure(EntityTypeBuilder<StoredAnswer> builder)
    {
        builder.ToTable("answers");
        builder
            .HasIndex(answer => new
            {
                answer.Caller,
                answer.Path,
                answer.Key,
            })
            .IsUnique();
        builder.HasIndex(answer => answer.StoredUtc);
    }
}
