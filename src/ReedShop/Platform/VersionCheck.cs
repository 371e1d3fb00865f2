namespace ReedShop.Platform;

/// <summary>Refuses a change to a version that has moved on since it was read.</summary>
public delegate Refusal? VersionCheck(long version);

public static class VersionChecks
{
    /// <summary>For moves that name the stage they leave, which guards them well enough.</summary>
    public static VersionCheck None { get; } = _ => null;
}
