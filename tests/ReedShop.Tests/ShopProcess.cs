using System.Diagnostics;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;

namespace ReedShop.Tests;

/// <summary>The program as a process of its own, by the clock of the machine: it can be killed at any moment.</summary>
internal sealed partial class ShopProcess : IAsyncDisposable
{
    private const string AnyAddress = "http://127.0.0.1:0";

    private readonly Process process;
    private readonly Task rest;

    private ShopProcess(Process process, string address)
    {
        this.process = process;
        // A program nobody listens to stands still once the pipe is full.
        rest = Task.WhenAll(process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        Guest = new HttpClient { BaseAddress = new Uri(address) };
        Owner = new HttpClient { BaseAddress = new Uri(address) };
        Owner.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", ShopHost.Token);
    }

    public HttpClient Guest { get; }

    public HttpClient Owner { get; }

    /// <summary>Starts it on a folder and waits until it listens.</summary>
    /// <param name="settings">Such as `ReedShop:OwnerToken`.</param>
    public static async Task<ShopProcess> Start(
        string folder,
        IEnumerable<(string Name, string? Value)> settings,
        CancellationToken cancel
    )
    {
        var begun = Begin(
            AnyAddress,
            [("ReedShop:DataFolder", folder), ("ReedShop:OwnerToken", ShopHost.Token), .. settings]
        );
        try
        {
            while (await begun.StandardOutput.ReadLineAsync(cancel) is { } line)
            {
                if (Listening().Match(line) is { Success: true } found)
                {
                    return new ShopProcess(begun, found.Groups["address"].Value);
                }
            }

            throw new InvalidOperationException("The program ended before it listened.");
        }
        catch
        {
            begun.Kill();
            begun.Dispose();
            throw;
        }
    }

    /// <summary>Starts it and does not wait.</summary>
    public static Process Begin(string address, params IEnumerable<(string Name, string? Value)> settings)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(Program).Assembly.Location, "--urls", address])
        {
            UseShellExecute = false,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
            WorkingDirectory = AppContext.BaseDirectory,
        };
        foreach (var (name, value) in settings)
        {
            start.Environment[name.Replace(":", "__", StringComparison.Ordinal)] = value;
        }

        return Process.Start(start)!;
    }

    /// <summary>Ends it as `kill -9` does: nothing of it runs any more, and nothing is put in order.</summary>
    public void Kill()
    {
        process.Kill();
        process.WaitForExit();
    }

    public async ValueTask DisposeAsync()
    {
        Guest.Dispose();
        Owner.Dispose();
        Kill();
        await rest;
        process.Dispose();
    }

    [GeneratedRegex(
        @"Now listening on: (?<address>\S+)",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex Listening();
}
