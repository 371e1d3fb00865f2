namespace ReedShop.Platform.Storage;

/// <summary>
/// Keeps a second instance off the same data folder: two of them would plan the same evenings twice. The operating
/// system lets go of the lock when the process ends, however it ends.
/// </summary>
public sealed class FolderLock(DataFolder folder) : IDisposable
{
    private FileStream? held;

    public void Take()
    {
        try
        {
            held = new FileStream(folder.Lock, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException)
        {
            throw new CannotStartException(
                $"Another ReedShop is using {folder.Root}. Stop it first, or give this one a folder of its own with ReedShop__DataFolder.",
                CannotStartException.FolderInUse
            );
        }
    }

    public void Dispose() => held?.Dispose();
}
