using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Quotes;

public sealed class QuoteStore(ShopDb db)
{
    public Task<Quote?> Find(string id, CancellationToken cancel) =>
        db.Set<Quote>().AsNoTracking().SingleOrDefaultAsync(quote => quote.Id == id, cancel);

    public Task Add(Quote quote, CancellationToken cancel)
    {
        db.Add(quote);
        return db.SaveChangesAsync(cancel);
    }

    /// <summary>Quotes nobody accepted are of no use once they have run out.</summary>
    public Task<int> RemoveOlderThan(DateTime instantUtc, CancellationToken cancel) =>
        db.Set<Quote>().Where(quote => quote.ValidUntilUtc < instantUtc).ExecuteDeleteAsync(cancel);
}

internal sealed class QuoteMapping : IEntityTypeConfiguration<Quote>
{
    public void Configure(EntityTypeBuilder<Quote> builder)
    {
        builder.ToTable("quotes");
        builder.Property(quote => quote.Request).AsJson();
        builder.Property(quote => quote.Reasons).AsJson();
        builder.Ignore(quote => quote.Price);
        builder.HasIndex(quote => quote.ValidUntilUtc);
    }
}
