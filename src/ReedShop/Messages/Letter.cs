using MimeKit;
using ReedShop.Platform;

namespace ReedShop.Messages;

/// <summary>A message of the outbox as a letter. Made again from the same message it is the same letter.</summary>
internal static class Letter
{
    private const string NobodysAddress = "reedshop@reedshop.invalid";

    public static MimeMessage Of(OutboxMessage message, MailOptions options)
    {
        var letter = new MimeMessage
        {
            MessageId = message.MessageId,
            Date = new DateTimeOffset(message.CreatedUtc, TimeSpan.Zero),
            Subject = message.Title,
            Body = new TextPart("plain") { Text = message.Text },
        };
        letter.From.Add(MailboxAddress.Parse(options.From ?? NobodysAddress));
        letter.To.Add(MailboxAddress.Parse(message.To));
        // Keeps holiday notes and the like from answering a machine (RFC 3834).
        letter.Headers.Add(HeaderId.AutoSubmitted, "auto-generated");
        return letter;
    }
}
