using Microsoft.Extensions.Options;
using ReedShop.Platform.Storage;

namespace ReedShop.Platform;

/// <summary>The life of the program: settings checked, folder locked, database migrated, doors open.</summary>
public static class ShopRun
{
    /// <summary>A flag with no value would swallow the argument after it.</summary>
    public static string[] Arguments(string[] args) =>
        [
            .. args.Select(arg =>
                arg == "--demo" ? $"--{ReedShopOptions.Section}:{nameof(ReedShopOptions.Demo)}=true" : arg
            ),
        ];

    /// <returns>The exit code of the process.</returns>
    public static async Task<int> RunShop(this WebApplication app)
    {
        try
        {
            app.Services.GetRequiredService<IStartupValidator>().Validate();
            app.Services.GetRequiredService<FolderLock>().Take();
            await app.Services.GetRequiredService<StorageStart>().Open();
            await app.RunAsync();
            return 0;
        }
        catch (OptionsValidationException wrong)
        {
            return await Refuse(string.Join(Environment.NewLine, wrong.Failures), CannotStartException.BadSettings);
        }
        catch (CannotStartException refused)
        {
            return await Refuse(refused.Message, refused.ExitCode);
        }
        finally
        {
            await app.DisposeAsync();
        }
    }

    private static async Task<int> Refuse(string why, int exitCode)
    {
        await Console.Error.WriteLineAsync(why);
        return exitCode;
    }
}
