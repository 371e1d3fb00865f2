using Microsoft.AspNetCore.Connections;
using Microsoft.Extensions.Options;
using ReedShop.Platform.Storage;

namespace ReedShop.Platform;

/// <summary>The life of the program: settings checked, folder locked, database migrated, doors open.</summary>
public static class ShopRun
{
    /// <param name="add">Registers what the capabilities need.</param>
    /// <param name="map">Opens their doors.</param>
    /// <returns>The exit code of the process.</returns>
    public static async Task<int> Run(string[] args, Action<WebApplicationBuilder> add, Action<WebApplication> map)
    {
        try
        {
            var builder = WebApplication.CreateBuilder(Arguments(args));
            add(builder);
            await using var app = builder.Build();
            app.Services.GetRequiredService<IStartupValidator>().Validate();
            app.Services.GetRequiredService<FolderLock>().Take();
            map(app);
            await app.Services.GetRequiredService<StorageStart>().Open();
            await app.RunAsync();
            return 0;
        }
        catch (OptionsValidationException wrong)
        {
            return await Refuse(string.Join(Environment.NewLine, wrong.Failures), CannotStartException.BadSettings);
        }
        catch (InvalidOperationException wrong) when (wrong.Source == "Microsoft.Extensions.Configuration.Binder")
        {
            return await Refuse($"A setting cannot be read. {wrong.Message}", CannotStartException.BadSettings);
        }
        catch (IOException fault) when (fault.InnerException is AddressInUseException)
        {
            return await Refuse(
                $"{fault.Message} Stop what listens there, or choose another with --urls http://127.0.0.1:5001.",
                CannotStartException.AddressInUse
            );
        }
        catch (CannotStartException refused)
        {
            return await Refuse(refused.Message, refused.ExitCode);
        }
    }

    /// <summary>A flag with no value would swallow the argument after it.</summary>
    private static string[] Arguments(string[] args) =>
        [
            .. args.Select(arg =>
                arg == "--demo" ? $"--{ReedShopOptions.Section}:{nameof(ReedShopOptions.Demo)}=true" : arg
            ),
        ];

    private static async Task<int> Refuse(string why, int exitCode)
    {
        await Console.Error.WriteLineAsync(why);
        return exitCode;
    }
}
