namespace ReedShop.Platform;

/// <summary>The program ends before it opens a port; the message says what to change.</summary>
public sealed class CannotStartException(string message, int exitCode) : Exception(message)
{
    public const int BadSettings = 2;
    public const int FolderInUse = 3;
    public const int AddressInUse = 4;
    public const int FolderUnusable = 5;

    public int ExitCode { get; } = exitCode;
}
