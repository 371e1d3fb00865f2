namespace ReedShop.Tests;

/// <summary>A folder that goes with the test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("reedshop-test-").FullName;

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
