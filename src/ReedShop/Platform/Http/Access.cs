namespace ReedShop.Platform.Http;

/// <summary>Names of the two doors: scripts come with a token, people with a cookie.</summary>
public static class Access
{
    public const string OwnerToken = "owner-token";
    public const string OwnerCookie = "owner-cookie";
}
