namespace ReedShop.Platform.Http;

/// <summary>An amount in minor units with its ISO 4217 currency.</summary>
public sealed record Money(long Amount, string Currency)
{
    private static readonly HashSet<string> WithoutMinorUnit = new(
        ["JPY", "KRW", "CLP", "ISK"],
        StringComparer.Ordinal
    );

    public override string ToString() =>
        WithoutMinorUnit.Contains(Currency)
            ? FormattableString.Invariant($"{Amount} {Currency}")
            : FormattableString.Invariant($"{Amount / 100}.{Amount % 100:00} {Currency}");
}
