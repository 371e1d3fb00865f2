using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.Options;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Accounts;

/// <summary>Opens the shop: its owner and, unless a script was faster, its settings, in one transaction.</summary>
public sealed class FirstRun(FactsGate gate, FirstRunCode code)
{
    public Task<Result<bool>> Open(FirstRunForm form, CancellationToken cancel) =>
        code.Matches(form.Code)
            ? gate.Change((services, stop) => Open(services, form, stop), cancel)
            : Task.FromResult<Result<bool>>(
                Refusal.Invalid("code", "The code is not the one printed last.", "the last code on the console")
            );

    private static async Task<Result<bool>> Open(IServiceProvider services, FirstRunForm form, CancellationToken cancel)
    {
        var account = services.GetRequiredService<OwnerAccount>();
        if (await account.Exists())
        {
            return Refusal.Stage("This shop has an owner already.", "signing in");
        }

        var shops = services.GetRequiredService<ShopStore>();
        if (await shops.Find(cancel) is null)
        {
            if (form.Shop() is var wanted && wanted.Fault() is { } fault)
            {
                return fault;
            }

            ShopCommands.Open(services, shops, null, wanted);
        }

        return await account.Create(form.Password) is { } refusal ? refusal : true;
    }
}

/// <summary>Prints the code once the doors are open, if there is no owner yet.</summary>
internal sealed class FirstRunNotice(
    IServiceScopeFactory scopes,
    IServer server,
    IOptions<ReedShopOptions> options,
    FirstRunCode code
) : IHostedLifecycleService
{
    public async Task StartedAsync(CancellationToken cancellationToken)
    {
        await using var scope = scopes.CreateAsyncScope();
        var account = scope.ServiceProvider.GetRequiredService<OwnerAccount>();
        if (options.Value.ResetOwner)
        {
            await account.Remove();
        }

        if (!await account.Exists())
        {
            code.Print(server.Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault());
        }
    }

    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}

/// <summary>Leads whoever opens a page of a shop without an owner to the page that gives it one.</summary>
internal sealed class FirstRunGuide(RequestDelegate next)
{
    public async Task InvokeAsync(HttpContext http, OwnerAccount account)
    {
        if (IsPage(http.Request) && !await account.Exists())
        {
            http.Response.Redirect(AccountPages.FirstRunPath);
            return;
        }

        await next(http);
    }

    private static bool IsPage(HttpRequest request) =>
        HttpMethods.IsGet(request.Method)
        && request.Headers.Accept.ToString().Contains("text/html", StringComparison.OrdinalIgnoreCase)
        && !request.Path.StartsWithSegments(AccountPages.FirstRunPath, StringComparison.Ordinal)
        && !request.Path.IsForScripts()
        && !request.Path.IsAboutTheProgram();
}
