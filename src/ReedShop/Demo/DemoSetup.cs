using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.Options;
using ReedShop.Accounts;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Demo;

public static class DemoSetup
{
    public static void AddDemo(this IHostApplicationBuilder builder)
    {
        builder.Services.AddSingleton<DemoShop>();
        builder.Services.AddHostedService<DemoStart>();
    }
}

/// <summary>Furnishes the demo before anything else starts, and says where its doors are once they are open.</summary>
internal sealed class DemoStart(DemoShop demo, DataFolder folder, IOptions<ReedShopOptions> options, IServer server)
    : IHostedLifecycleService
{
    private string password = "";

    public async Task StartingAsync(CancellationToken cancellationToken)
    {
        if (options.Value.Demo)
        {
            await demo.Furnish(cancellationToken);
            password = await demo.NewPassword();
        }
    }

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartedAsync(CancellationToken cancellationToken) =>
        options.Value.Demo ? Console.Out.WriteLineAsync(Welcome()) : Task.CompletedTask;

    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <summary>To the console only: a password has no place in a log file.</summary>
    private string Welcome()
    {
        var address = (server.Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault() ?? "")
            .Replace("[::]", "localhost", StringComparison.Ordinal)
            .Replace("0.0.0.0", "localhost", StringComparison.Ordinal);
        return $"""

            The demo shop is open. Everything in it is invented.
              Buyers order at     {address}/
              The maker works at  {address}{WeekPages.Address}
              Sign in at          {address}{AccountPages.SignInPath}
              with the password   {password}
            Its data folder is {folder.Root}; remove it to start afresh.

            """;
    }
}
