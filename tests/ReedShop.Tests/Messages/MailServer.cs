using System.Buffers;
using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using MimeKit;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace ReedShop.Tests.Messages;

/// <summary>A real mail server on this machine that keeps what it takes and can be told to refuse.</summary>
internal sealed class MailServer : MessageStore, IAsyncDisposable
{
    private readonly CancellationTokenSource stop = new();
    private readonly Task running;

    public MailServer()
    {
        using (var probe = new TcpListener(IPAddress.Loopback, 0))
        {
            probe.Start();
            Port = ((IPEndPoint)probe.LocalEndpoint).Port;
        }

        var services = new ServiceProvider();
        services.Add(this);
        var options = new SmtpServerOptionsBuilder()
            .ServerName("localhost")
            .Endpoint(endpoint => endpoint.Endpoint(new IPEndPoint(IPAddress.Loopback, Port)))
            .Build();
        running = new SmtpServer.SmtpServer(options, services).StartAsync(stop.Token);
    }

    public int Port { get; }

    public ConcurrentQueue<MimeMessage> Taken { get; } = [];

    /// <summary>Message-IDs of what was refused.</summary>
    public ConcurrentQueue<string> Refused { get; } = [];

    public bool Refuses { get; set; }

    public (string Name, string? Value)[] Settings => SettingsFor(Port);

    public static (string Name, string? Value)[] SettingsFor(int port) =>
        [
            ("ReedShop:Mail:Host", "127.0.0.1"),
            ("ReedShop:Mail:Port", port.ToString(System.Globalization.CultureInfo.InvariantCulture)),
            ("ReedShop:Mail:Security", "None"),
            ("ReedShop:Mail:From", "shop@example.org"),
        ];

    public override async Task<SmtpResponse> SaveAsync(
        ISessionContext context,
        IMessageTransaction transaction,
        ReadOnlySequence<byte> buffer,
        CancellationToken cancellationToken
    )
    {
        using var bytes = new MemoryStream(buffer.ToArray());
        var letter = await MimeMessage.LoadAsync(bytes, cancellationToken);
        if (Refuses)
        {
            Refused.Enqueue(letter.MessageId!);
            return SmtpResponse.MailboxUnavailable;
        }

        Taken.Enqueue(letter);
        return SmtpResponse.Ok;
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await running.WaitAsync(TimeSpan.FromSeconds(10));
        stop.Dispose();
    }
}
