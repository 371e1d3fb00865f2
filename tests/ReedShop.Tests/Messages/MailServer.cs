using System.Buffers;
using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using MimeKit;
using ReedShop.Messages;
using SmtpServer;
using SmtpServer.Authentication;
using SmtpServer.ComponentModel;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace ReedShop.Tests.Messages;

/// <summary>A real mail server on this machine that keeps what it takes and can be told to refuse.</summary>
internal sealed class MailServer : MessageStore, IAsyncDisposable
{
    public const string User = "reeds";
    public const string Password = "an invented password";

    private readonly CancellationTokenSource stop = new();
    private readonly Task running;
    private readonly MailSecurity security;
    private readonly bool asksForPassword;
    private readonly X509Certificate2 certificate = OwnCertificate();

    /// <param name="security">What it offers: nothing, STARTTLS, or TLS from the first byte.</param>
    /// <param name="asksForPassword">Letters are taken of its own user only, over TLS.</param>
    public MailServer(MailSecurity security = MailSecurity.None, bool asksForPassword = false)
    {
        this.security = security;
        this.asksForPassword = asksForPassword;
        Port = FreePort.Next();
        var services = new ServiceProvider();
        services.Add(this);
        services.Add((IUserAuthenticator)new Door());
        var options = new SmtpServerOptionsBuilder().ServerName("localhost").Endpoint(Open).Build();
        running = new SmtpServer.SmtpServer(options, services).StartAsync(stop.Token);
    }

    public int Port { get; }

    public ConcurrentQueue<MimeMessage> Taken { get; } = [];

    /// <summary>Message-IDs of what was refused.</summary>
    public ConcurrentQueue<string> Refused { get; } = [];

    public bool Refuses { get; set; }

    /// <summary>Called when a letter has been taken and before that is answered: a moment to end the sender at.</summary>
    public Func<Task>? Took { get; set; }

    /// <summary>Whether each letter came over an encrypted connection.</summary>
    public ConcurrentQueue<bool> Encrypted { get; } = [];

    /// <summary>SHA-256 of its certificate, as tools print it.</summary>
    public string Fingerprint => string.Join(':', SHA256.HashData(certificate.RawData).Select(b => $"{b:X2}"));

    public (string Name, string? Value)[] Settings => SettingsFor(Port);

    public IEnumerable<(string Name, string? Value)> SettingsWith(MailSecurity asked, string? fingerprint = null) =>
        [
            .. SettingsFor(Port).Where(setting => setting.Name != "ReedShop:Mail:Security"),
            ("ReedShop:Mail:Security", asked.ToString()),
            ("ReedShop:Mail:Certificate", fingerprint),
        ];

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

        Encrypted.Enqueue(context.Pipe.IsSecure);
        Taken.Enqueue(letter);
        await (Took?.Invoke() ?? Task.CompletedTask);
        return SmtpResponse.Ok;
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await running.WaitAsync(TimeSpan.FromSeconds(10));
        stop.Dispose();
        certificate.Dispose();
    }

    private void Open(EndpointDefinitionBuilder endpoint)
    {
        endpoint.Endpoint(new IPEndPoint(IPAddress.Loopback, Port));
        if (security != MailSecurity.None)
        {
            endpoint.Certificate(certificate).IsSecure(security == MailSecurity.Tls);
            endpoint.AuthenticationRequired(asksForPassword);
        }
    }

    private sealed class Door : IUserAuthenticator
    {
        public Task<bool> AuthenticateAsync(
            ISessionContext context,
            string user,
            string password,
            CancellationToken cancellationToken
        ) => Task.FromResult(user == User && password == Password);
    }

    /// <summary>A certificate that no authority vouches for.</summary>
    private static X509Certificate2 OwnCertificate()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256);
        using var made = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        return X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pfx), password: null);
    }
}
