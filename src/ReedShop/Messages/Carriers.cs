using System.Globalization;
using System.Security.Cryptography;
using MailKit.Net.Smtp;
using Microsoft.Extensions.Options;
using MimeKit;
using ReedShop.Platform.Storage;

namespace ReedShop.Messages;

/// <summary>A way to bring a letter to its reader.</summary>
internal interface ICarrier
{
    /// <exception cref="Exception">It could not be handed over; it is tried again later.</exception>
    Task Carry(long id, MimeMessage letter, CancellationToken cancel);
}

/// <summary>Hands letters to the mail server.</summary>
internal sealed class SmtpCarrier(IOptions<MailOptions> options) : ICarrier
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    public async Task Carry(long id, MimeMessage letter, CancellationToken cancel)
    {
        var mail = options.Value;
        using var client = new SmtpClient { Timeout = (int)Patience.TotalMilliseconds };
        if (mail.Fingerprint is { } trusted)
        {
            client.ServerCertificateValidationCallback = (_, certificate, _, _) =>
                string.Equals(
                    certificate?.GetCertHashString(HashAlgorithmName.SHA256),
                    trusted,
                    StringComparison.OrdinalIgnoreCase
                );
        }

        await client.ConnectAsync(mail.Host!, mail.UsedPort, mail.Socket, cancel);
        if (mail.User is { } user)
        {
            await client.AuthenticateAsync(user, mail.Password!, cancel);
        }

        await client.SendAsync(letter, cancel);
        await client.DisconnectAsync(quit: true, cancel);
    }
}

/// <summary>Without a mail server letters lie in the data folder, for the owner to read or to send by hand.</summary>
internal sealed class FolderCarrier(DataFolder folder) : ICarrier
{
    public async Task Carry(long id, MimeMessage letter, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder.Mail);
        var name = string.Create(CultureInfo.InvariantCulture, $"{id:000000}.eml");
        var unfinished = Path.Combine(folder.Mail, $"{name}.part");
        await letter.WriteToAsync(unfinished, cancel);
        File.Move(unfinished, Path.Combine(folder.Mail, name), overwrite: true);
    }
}
