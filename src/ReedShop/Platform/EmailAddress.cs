using MimeKit;

namespace ReedShop.Platform;

/// <summary>Whether an address can be written to, as the mail library judges it.</summary>
public static class EmailAddress
{
    public const int MostCharacters = 254;

    public const string Allowed = "one e-mail address such as name@example.org";

    public static bool IsUsable(string? text) =>
        text is { Length: > 0 and <= MostCharacters }
        && MailboxAddress.TryParse(text, out var mailbox)
        && mailbox.Address == text.Trim()
        && mailbox.Address.Contains('@', StringComparison.Ordinal);
}
