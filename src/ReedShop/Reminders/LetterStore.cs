using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Reminders;

public sealed class LetterStore(ShopDb db)
{
    private static readonly LetterSettings Usual = new();

    /// <summary>As they are, or the usual ones where nothing was chosen yet.</summary>
    public async Task<LetterSettings> Read(CancellationToken cancel) =>
        await db.Set<LetterSettings>().AsNoTracking().SingleOrDefaultAsync(cancel) ?? Usual;

    /// <summary>The stored row; several jobs may be the first to want one.</summary>
    public async Task<LetterSettings> ForChange(CancellationToken cancel)
    {
        if (await db.Set<LetterSettings>().SingleOrDefaultAsync(cancel) is { } stored)
        {
            return stored;
        }

        var fresh = new LetterSettings();
        await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO letter_settings ("Id", "Stopped", "QuietFrom", "QuietUntil", "CaneWeeks", "Secret", "Version")
            VALUES ({fresh.Id}, {"[]"}, {fresh.QuietFrom}, {fresh.QuietUntil}, {fresh.CaneWeeks}, {fresh.Secret}, 0)
            ON CONFLICT DO NOTHING
            """,
            cancel
        );
        return await db.Set<LetterSettings>().SingleAsync(cancel);
    }

    /// <summary>False where somebody else changed the letters first: then nothing is saved.</summary>
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

internal sealed class LetterMapping : IEntityTypeConfiguration<LetterSettings>
{
    public void Configure(EntityTypeBuilder<LetterSettings> builder)
    {
        builder.ToTable("letter_settings");
        builder.Property(letters => letters.Id).ValueGeneratedNever();
        builder.Property(letters => letters.Stopped).AsJson();
        builder.Property(letters => letters.Version).IsConcurrencyToken();
    }
}
