using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Payments;

internal sealed class PaySessionMapping : IEntityTypeConfiguration<PaySession>
{
    public void Configure(EntityTypeBuilder<PaySession> builder)
    {
        builder.ToTable("pay_sessions");
        builder.HasIndex(row => row.OrderId);
        builder.HasIndex(row => new { row.State, row.AskNextUtc });
        builder.Ignore(row => row.IsOver);
    }
}

internal sealed class PaymentMapping : IEntityTypeConfiguration<Payment>
{
    public void Configure(EntityTypeBuilder<Payment> builder)
    {
        builder.ToTable("payments");
        builder.HasIndex(row => row.OrderId);
        builder.HasIndex(row => row.StripeId).IsUnique();
    }
}

internal sealed class RefundMapping : IEntityTypeConfiguration<Refund>
{
    public void Configure(EntityTypeBuilder<Refund> builder)
    {
        builder.ToTable("refunds");
        builder.HasIndex(row => row.OrderId);
        builder.HasIndex(row => row.StripeId).IsUnique();
        builder.HasIndex(row => new { row.State, row.NextTryUtc });
        builder.Property(row => row.State).IsConcurrencyToken();
        builder.Ignore(row => row.IsDiscount);
    }
}

internal sealed class PaperMapping : IEntityTypeConfiguration<Paper>
{
    public void Configure(EntityTypeBuilder<Paper> builder)
    {
        builder.ToTable("papers");
        builder.HasIndex(row => new { row.Kind, row.Number }).IsUnique();
        builder.HasIndex(row => row.OrderId);
        builder.Property(row => row.Content).AsJson();
    }
}

/// <summary>Two that write papers at once would both take the next number: the second starts again.</summary>
internal sealed class PaperNumberMapping : IEntityTypeConfiguration<PaperNumber>
{
    public void Configure(EntityTypeBuilder<PaperNumber> builder)
    {
        builder.ToTable("paper_numbers");
        builder.HasKey(row => row.Kind);
        builder.Property(row => row.Last).IsConcurrencyToken();
        builder.HasData(new PaperNumber { Kind = PaperKind.Invoice }, new PaperNumber { Kind = PaperKind.CreditNote });
    }
}

internal sealed class DisputeMapping : IEntityTypeConfiguration<Dispute>
{
    public void Configure(EntityTypeBuilder<Dispute> builder)
    {
        builder.ToTable("disputes");
        builder.HasIndex(row => row.OrderId);
        builder.Ignore(row => row.IsOpen);
    }
}
