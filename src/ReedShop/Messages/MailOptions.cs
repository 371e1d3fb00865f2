using MailKit.Security;
using Microsoft.Extensions.Options;
using ReedShop.Platform;

namespace ReedShop.Messages;

public enum MailSecurity
{
    /// <summary>Begins in the clear and turns to TLS before anything is said, usually on port 587.</summary>
    StartTls,

    /// <summary>TLS from the first byte, usually on port 465.</summary>
    Tls,

    /// <summary>In the clear: for a relay on the same machine only.</summary>
    None,
}

/// <summary>The mail server, `ReedShop__Mail__Host` and so on. Without a host mail is written to files.</summary>
public sealed class MailOptions
{
    public const string Section = $"{ReedShopOptions.Section}:Mail";

    public string? Host { get; set; }

    public int? Port { get; set; }

    public MailSecurity Security { get; set; }

    public string? User { get; set; }

    public string? Password { get; set; }

    /// <summary>The address mail comes from.</summary>
    public string? From { get; set; }

    /// <summary>
    /// SHA-256 of the server's certificate in hexadecimal, for a server of one's own that no authority vouches for: this
    /// certificate and no other is trusted then.
    /// </summary>
    public string? Certificate { get; set; }

    /// <summary>Without the colons that tools print between its bytes.</summary>
    public string? Fingerprint =>
        string.IsNullOrWhiteSpace(Certificate) ? null : Certificate.Replace(":", "", StringComparison.Ordinal).Trim();

    public bool HasServer => !string.IsNullOrWhiteSpace(Host);

    public int UsedPort =>
        Port
        ?? (
            Security switch
            {
                MailSecurity.StartTls => 587,
                MailSecurity.Tls => 465,
                _ => 25,
            }
        );

    public SecureSocketOptions Socket =>
        Security switch
        {
            MailSecurity.StartTls => SecureSocketOptions.StartTls,
            MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
            _ => SecureSocketOptions.None,
        };
}

internal sealed class MailOptionsRules : IValidateOptions<MailOptions>
{
    public ValidateOptionsResult Validate(string? name, MailOptions options) =>
        options switch
        {
            { HasServer: true } when !EmailAddress.IsUsable(options.From) => ValidateOptionsResult.Fail(
                "ReedShop__Mail__From must be the e-mail address your mail server sends for, such as reeds@example.org."
            ),
            { Port: < 1 or > 65535 } => ValidateOptionsResult.Fail(
                "ReedShop__Mail__Port must be a port from 1 to 65535, or be left out."
            ),
            { HasServer: true, User: not null, Password: null } => ValidateOptionsResult.Fail(
                "ReedShop__Mail__User is set, so set ReedShop__Mail__Password too, or neither."
            ),
            { HasServer: true, User: not null, Security: MailSecurity.None } => ValidateOptionsResult.Fail(
                "ReedShop__Mail__Security is None, which would send the password in the clear: use StartTls or Tls."
            ),
            { Fingerprint: { } print } when print.Length != 64 || !print.All(char.IsAsciiHexDigit) =>
                ValidateOptionsResult.Fail(
                    "ReedShop__Mail__Certificate must be the SHA-256 fingerprint of the server's certificate, 64 hexadecimal digits, or be left out."
                ),
            _ => ValidateOptionsResult.Success,
        };
}
