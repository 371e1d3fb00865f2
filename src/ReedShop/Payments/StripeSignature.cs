using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ReedShop.Payments;

/// <summary>
/// Whether a webhook comes from who holds the signing secret, and not from a recording of it: the header carries
/// `t=seconds,v1=hex` where v1 is HMAC-SHA-256 of "seconds.body"; any v1 may match, other schemes are ignored.
/// </summary>
public static class StripeSignature
{
    public const string Header = "Stripe-Signature";

    /// <summary>Stripe's own default; longer would let a recording be played again.</summary>
    public static readonly TimeSpan Tolerance = TimeSpan.FromMinutes(5);

    public static bool IsValid(ReadOnlySpan<byte> body, string? header, string secret, DateTime nowUtc)
    {
        var parts = (header ?? "")
            .Split(',')
            .Select(part => part.Split('=', 2))
            .Where(part => part.Length == 2)
            .ToArray();
        var stamp = parts.FirstOrDefault(part => part[0].Trim() == "t")?[1];
        if (
            !long.TryParse(stamp, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds)
            || Math.Abs(new DateTimeOffset(nowUtc).ToUnixTimeSeconds() - seconds) > Tolerance.TotalSeconds
        )
        {
            return false;
        }

        var expected = Encoding.ASCII.GetBytes(
            Of(Encoding.UTF8.GetBytes(secret), [.. Encoding.UTF8.GetBytes($"{stamp}."), .. body])
        );
        return parts
            .Where(part => part[0].Trim() == "v1")
            .Any(part => CryptographicOperations.FixedTimeEquals(expected, Encoding.UTF8.GetBytes(part[1].Trim())));
    }

    /// <summary>HMAC-SHA-256 (RFC 2104) in hexadecimal.</summary>
    public static string Of(ReadOnlySpan<byte> key, ReadOnlySpan<byte> text) =>
        Convert.ToHexStringLower(HMACSHA256.HashData(key, text));
}
