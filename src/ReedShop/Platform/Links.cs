using System.Security.Cryptography;

namespace ReedShop.Platform;

/// <summary>Names for things that are reached by a link: 128 random bits, so that none can be guessed.</summary>
public static class Links
{
    private const int Bytes = 16;

    public static string New() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(Bytes));
}
