using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.Options;
using ReedShop.Platform;

namespace ReedShop.Demo;

public static class DemoSetup
{
    public static void AddDemo(this IHostApplicationBuilder builder)
    {
        builder.Services.AddSingleton<DemoShop>();
        builder.Services.AddHostedService<DemoStart>();
    }
}

/// <summary>Furnishes the demo before the doors open, and says afterwards where they are.</summary>
internal sealed class DemoStart(DemoShop demo, IOptions<ReedShopOptions> options, IServer server)
    : IHostedLifecycleService
{
    public Task StartAsync(CancellationToken cancellationToken) =>
        options.Value.Demo ? demo.Furnish(cancellationToken) : Task.CompletedTask;

    public Task StartedAsync(CancellationToken cancellationToken) =>
        options.Value.Demo ? Console.Out.WriteLineAsync(Welcome()) : Task.CompletedTask;

    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    private string Welcome()
    {
        var address = server.Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault() ?? "";
        return $"The demo shop is open; all of it is invented. Buyers order at {address}/";
    }
}
