using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Planning.Forecasting;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>Why a promise is late in the draws that miss it.</summary>
/// <param name="Share">Of those draws, 0 to 1.</param>
public sealed record CauseShare(LateCause Cause, double Share);

/// <summary>What the draws of the shop said of one promise, with the key of the plan they were made from.</summary>
public sealed class Outlook
{
    private const double Likely = 0.5;
    private const double Sure = 0.9;

    public required string OrderId { get; init; }

    public required long FactsVersion { get; init; }

    public required DateOnly Day { get; init; }

    /// <summary>The chance of keeping the promise.</summary>
    public required double Chance { get; init; }

    /// <summary>The parcel leaves by this day as likely as not; null where it may well never.</summary>
    public DateOnly? LikelyShipDay { get; init; }

    /// <summary>It leaves by this day nine times in ten.</summary>
    public DateOnly? SureShipDay { get; init; }

    /// <summary>Of the draws that miss the promise, the share of each cause, the largest first.</summary>
    public required List<CauseShare> Causes { get; init; }

    public static Outlook Of(PromiseOutlook promise, long factsVersion, DateOnly day) =>
        new()
        {
            OrderId = promise.Order,
            FactsVersion = factsVersion,
            Day = day,
            Chance = promise.Chance,
            LikelyShipDay = promise.ShipDayFor(Likely),
            SureShipDay = promise.ShipDayFor(Sure),
            Causes = [.. promise.Causes.Select(cause => new CauseShare(cause.Cause, cause.Share))],
        };
}

public sealed class OutlookStore(ShopDb db)
{
    public Task<List<Outlook>> All(CancellationToken cancel) =>
        db.Set<Outlook>().AsNoTracking().OrderBy(outlook => outlook.OrderId).ToListAsync(cancel);

    /// <summary>The outlooks of one forecast take the place of those of the one before, all at once.</summary>
    public async Task Replace(IEnumerable<Outlook> outlooks, CancellationToken cancel)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        await db.Set<Outlook>().ExecuteDeleteAsync(cancel);
        db.AddRange(outlooks);
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
    }
}

internal sealed class OutlookMapping : IEntityTypeConfiguration<Outlook>
{
    public void Configure(EntityTypeBuilder<Outlook> builder)
    {
        builder.ToTable("outlooks");
        builder.HasKey(outlook => outlook.OrderId);
        builder.Property(outlook => outlook.Causes).AsJson();
    }
}
