using Microsoft.Extensions.Options;

namespace ReedShop.Platform.Storage;

/// <summary>The one folder that holds everything this shop knows.</summary>
public sealed class DataFolder
{
    public DataFolder(IOptions<ReedShopOptions> options)
    {
        var shop = options.Value;
        Root = shop.DataFolder ?? Path.Combine(UsualParent, shop.Demo ? "ReedShop-demo" : "ReedShop");
        try
        {
            Directory.CreateDirectory(Root);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new CannotStartException(
                $"The data folder {Root} cannot be used: {fault.Message} Choose another with ReedShop__DataFolder.",
                CannotStartException.FolderUnusable
            );
        }
    }

    public string Root { get; }

    public string Database => Path.Combine(Root, "reedshop.db");

    public string Lock => Path.Combine(Root, "reedshop.lock");

    public string Logs => Path.Combine(Root, "logs");

    public string Backups => Path.Combine(Root, "backups");

    public string Mail => Path.Combine(Root, "mail");

    private static string UsualParent =>
        Environment.GetFolderPath(
            Environment.SpecialFolder.LocalApplicationData,
            Environment.SpecialFolderOption.Create
        );
}
