using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Time.Testing;
using ReedShop.Platform.Http;
using ReedShop.Platform.Ticks;

namespace ReedShop.Tests;

/// <summary>
/// The real program on a real port with a real database in a folder of its own, and a clock the test moves. Nothing
/// ticks by itself.
/// </summary>
public sealed class ShopHost : IAsyncDisposable
{
    public const string Token = "a-token-for-tests-only";

    /// <summary>A Monday in winter, when Lisbon keeps UTC.</summary>
    public static readonly DateTimeOffset Monday = new(2027, 3, 1, 9, 0, 0, TimeSpan.Zero);

    private readonly Dictionary<string, string?> settings;
    private readonly Action<IServiceCollection>? configure;
    private Factory factory;

    private ShopHost(DateTimeOffset now, Dictionary<string, string?> settings, Action<IServiceCollection>? configure)
    {
        this.configure = configure;
        Time = new FakeTimeProvider(now);
        Folder = Directory.CreateTempSubdirectory("reedshop-test-").FullName;
        this.settings = settings;
        factory = new Factory(this);
    }

    public FakeTimeProvider Time { get; }

    /// <summary>The data folder; it outlives a restart.</summary>
    public string Folder { get; }

    /// <summary>Speaks to the API with the owner's token.</summary>
    public HttpClient Owner { get; private set; } = null!;

    /// <summary>Speaks to the API as a buyer does: with nothing.</summary>
    public HttpClient Guest { get; private set; } = null!;

    public IServiceProvider Services => factory.Services;

    public Uri Address => factory.ClientOptions.BaseAddress;

    /// <param name="settings">Such as `ReedShop:OwnerToken`; they add to those of the harness.</param>
    public static Task<ShopHost> Start(
        DateTimeOffset? now = null,
        params IEnumerable<(string Name, string? Value)> settings
    ) => StartWith(null, now, settings);

    /// <param name="configure">Adds to the services of the program, after every start: a place to die at, say.</param>
    public static async Task<ShopHost> StartWith(
        Action<IServiceCollection>? configure,
        DateTimeOffset? now = null,
        params IEnumerable<(string Name, string? Value)> settings
    )
    {
        var host = new ShopHost(now ?? Monday, settings.ToDictionary(set => set.Name, set => set.Value), configure);
        try
        {
            host.Open();
            return host;
        }
        catch
        {
            await host.DisposeAsync();
            throw;
        }
    }

    /// <summary>Stops the program, so that another may work on its folder; <see cref="Restart"/> goes on.</summary>
    public Task Stop() => Close();

    /// <summary>Stops the program and starts it again on the same folder, with other settings where given.</summary>
    public async Task Restart(params IEnumerable<(string Name, string? Value)> changed)
    {
        await Close();
        foreach (var (name, value) in changed)
        {
            settings[name] = value;
        }

        factory = new Factory(this);
        Open();
    }

    /// <summary>Runs work with services of its own, as a job does.</summary>
    public async Task<T> Within<T>(Func<IServiceProvider, Task<T>> work)
    {
        await using var scope = Services.CreateAsyncScope();
        return await work(scope.ServiceProvider);
    }

    public async Task Within(Func<IServiceProvider, Task> work)
    {
        await using var scope = Services.CreateAsyncScope();
        await work(scope.ServiceProvider);
    }

    /// <summary>Does what the program does every minute, such as `morning-reminder`; a fault reaches the test.</summary>
    public Task Tick(string name) => Within(services => services.GetRequiredKeyedService<ITick>(name).Run(Cancel));

    /// <summary>The body of a successful GET with the owner's token.</summary>
    public async Task<JsonElement> GetJson(string path) => await Read(await Owner.GetAsync(path, Cancel));

    /// <summary>The body of a successful POST with the owner's token.</summary>
    public async Task<JsonElement> PostJson(string path, object body) =>
        await Read(await Send(HttpMethod.Post, path, body));

    public async Task<JsonElement> PutJson(string path, object body, string? ifMatch = null) =>
        await Read(await Send(HttpMethod.Put, path, body, ifMatch is null ? [] : [("If-Match", ifMatch)]));

    /// <summary>Sends JSON with the owner's token and hands back whatever comes.</summary>
    public Task<HttpResponseMessage> Send(
        HttpMethod method,
        string path,
        object? body = null,
        params IEnumerable<(string Name, string Value)> headers
    ) => Send(Owner, method, path, body, headers);

    public static Task<HttpResponseMessage> Send(
        HttpClient client,
        HttpMethod method,
        string path,
        object? body = null,
        params IEnumerable<(string Name, string Value)> headers
    )
    {
        var request = new HttpRequestMessage(method, path)
        {
            Content = body is null ? null : JsonContent.Create(body, options: ShopJson.Options),
        };
        foreach (var (name, value) in headers)
        {
            request.Headers.Add(name, value);
        }

        return client.SendAsync(request, Cancel);
    }

    /// <summary>The body of an answer, which must be a success.</summary>
    public static async Task<JsonElement> Read(HttpResponseMessage answer)
    {
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(
            answer.IsSuccessStatusCode,
            $"{(int)answer.StatusCode} {answer.RequestMessage?.RequestUri}: {text}"
        );
        return JsonDocument.Parse(text).RootElement;
    }

    /// <summary>The problem document of an answer, which must be a refusal of that kind.</summary>
    public static async Task<JsonElement> ReadProblem(HttpResponseMessage answer, HttpStatusCode status, string slug)
    {
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(answer.StatusCode == status, $"{(int)answer.StatusCode}: {text}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var problem = JsonDocument.Parse(text).RootElement;
        Assert.Equal($"/problems/{slug}", problem.GetProperty("type").GetString());
        return problem;
    }

    public async ValueTask DisposeAsync()
    {
        await Close();
        Directory.Delete(Folder, recursive: true);
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private void Open()
    {
        factory.StartServer();
        Owner = new HttpClient { BaseAddress = Address };
        Owner.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", Token);
        Guest = new HttpClient { BaseAddress = Address };
    }

    private async Task Close()
    {
        Owner?.Dispose();
        Guest?.Dispose();
        await factory.DisposeAsync();
        SqliteConnection.ClearAllPools();
    }

    private sealed class Factory : WebApplicationFactory<Program>
    {
        private readonly ShopHost host;

        public Factory(ShopHost host)
        {
            this.host = host;
            UseKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0));
        }

        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            builder.UseEnvironment("Production");
            builder.UseSetting("ReedShop:DataFolder", host.Folder);
            builder.UseSetting("ReedShop:OwnerToken", Token);
            builder.UseSetting("ReedShop:Ticks", "false");
            builder.UseSetting("Serilog:MinimumLevel:Default", "Error");
            builder.UseSetting("Serilog:MinimumLevel:Override:Microsoft", "Fatal");
            builder.UseSetting("Serilog:MinimumLevel:Override:Microsoft.Hosting.Lifetime", "Fatal");
            foreach (var (name, value) in host.settings)
            {
                builder.UseSetting(name, value);
            }

            builder.ConfigureServices(services =>
            {
                services.Replace(ServiceDescriptor.Singleton<TimeProvider>(host.Time));
                host.configure?.Invoke(services);
            });
        }
    }
}
