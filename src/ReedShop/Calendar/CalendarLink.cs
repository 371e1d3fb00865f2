using System.Security.Cryptography;
using System.Text;
using ReedShop.Platform;

namespace ReedShop.Calendar;

/// <summary>
/// The secret link to the calendar. Only a digest of the secret is kept, so that who reads the database cannot follow
/// it; it is shown once, when it is made.
/// </summary>
public sealed class CalendarLink
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    /// <summary>None while there is no link.</summary>
    public string? Digest { get; private set; }

    public DateTime? MadeUtc { get; private set; }

    /// <summary>Nights on the rack are told too.</summary>
    public bool WithNights { get; set; }

    /// <summary>Comes after the @ in the names of all entries, so that no other shop's are named the same.</summary>
    public string Realm { get; init; } = $"{Links.New()}.reedshop.invalid";

    /// <summary>Key of the plan that the entries were last made from.</summary>
    public long FactsVersion { get; set; }

    public DateOnly PlanDay { get; set; }

    public int Version { get; set; }

    public bool IsOpen => Digest is not null;

    /// <returns>The secret; nobody can tell it again.</returns>
    public string Make(DateTime nowUtc)
    {
        var secret = Links.New();
        (Digest, MadeUtc) = (DigestOf(secret), nowUtc);
        Version++;
        return secret;
    }

    public void End()
    {
        (Digest, MadeUtc) = (null, null);
        Version++;
    }

    public bool IsOpenedBy(string secret) =>
        Digest is { } digest
        && CryptographicOperations.FixedTimeEquals(
            Encoding.ASCII.GetBytes(digest),
            Encoding.ASCII.GetBytes(DigestOf(secret))
        );

    private static string DigestOf(string secret) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}
