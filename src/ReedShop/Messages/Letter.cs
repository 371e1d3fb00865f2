using MimeKit;
using ReedShop.Platform;

namespace ReedShop.Messages;

/// <summary>A message of the outbox as a letter. Made again from the same message it is the same letter.</summary>
public static class Letter
{
    private const string NobodysAddress = "reedshop@reedshop.invalid";

    /// <summary>RFC 5322, 2.1.1.</summary>
    private const int MostCharactersInLine = 998;

    public static MimeMessage Of(OutboxMessage message, MailOptions options)
    {
        var letter = new MimeMessage
        {
            MessageId = message.MessageId,
            Date = new DateTimeOffset(message.CreatedUtc, TimeSpan.Zero),
            Subject = message.Title,
            Body = Body(message),
        };
        letter.From.Add(MailboxAddress.Parse(options.From ?? NobodysAddress));
        letter.To.Add(MailboxAddress.Parse(message.To));
        // Keeps holiday notes and the like from answering a machine (RFC 3834).
        letter.Headers.Add(HeaderId.AutoSubmitted, "auto-generated");
        if (IsOneClick(message.StopLink))
        {
            letter.Headers.Add(HeaderId.ListUnsubscribe, $"<{message.StopLink}>");
            letter.Headers.Add("List-Unsubscribe-Post", "List-Unsubscribe=One-Click");
        }

        // As it is wherever that will do, so that a letter in the folder can be read by anybody.
        letter.Prepare(EncodingConstraint.EightBit, MostCharactersInLine);
        return letter;
    }

    /// <summary>RFC 8058, 3.1: the address must be an https one, so a shop without has no such button.</summary>
    private static bool IsOneClick(string? link) => link?.StartsWith("https://", StringComparison.Ordinal) == true;

    /// <summary>The plainest form first (RFC 2046, 5.1.4): a reader takes the last one it can show.</summary>
    private static MultipartAlternative Body(OutboxMessage message) =>
        new(
            new TextPart("plain") { Text = message.Text },
            new TextPart("html") { Text = LetterHtml.Of(message.Title, message.Text, message.Language) }
        )
        {
            Boundary = $"=_{message.MessageId.Split('@')[0]}",
        };
}
