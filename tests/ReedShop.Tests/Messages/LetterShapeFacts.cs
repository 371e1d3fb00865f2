using MimeKit;
using ReedShop.Messages;
using ReedShop.Platform;

namespace ReedShop.Tests.Messages;

/// <summary>One text, two forms: what a letter looks like to those who read either.</summary>
public sealed class LetterShapeFacts
{
    private const string Text =
        "Dear Ana & João,\n\n19:00-19:10  7  soak\n\nyour order 12 <for the recital>:\n  4 of 3½ (clarinet)\n\nThe page of your order:\n"
        + "https://reeds.example.org/orders/1?a=1&b=2.\n\n-- \nNo more letters of this kind:\nhttps://reeds.example.org/letters/1\n";

    private static readonly MimeMessage Written = Letter.Of(Message(Text), new MailOptions());

    // RFC 2046, 5.1.4: the alternatives stand in increasing order of faithfulness, the plainest first.
    [Fact]
    public void The_plain_text_comes_first_and_is_the_text_itself()
    {
        var forms = Assert.IsType<MultipartAlternative>(Written.Body);

        Assert.Equal(["text/plain", "text/html"], forms.Select(form => form.ContentType.MimeType));
        Assert.Equal(Text, Written.TextBody!.ReplaceLineEndings("\n"));
    }

    [Fact]
    public void What_is_written_is_never_read_as_markup()
    {
        Assert.Contains("<p>Dear Ana &amp; João,</p>", Written.HtmlBody, StringComparison.Ordinal);
        Assert.Contains("&lt;for the recital&gt;", Written.HtmlBody, StringComparison.Ordinal);
        Assert.Contains("<h1>Order 12 &lt;b&gt;</h1>", Written.HtmlBody, StringComparison.Ordinal);
    }

    [Fact]
    public void Addresses_are_links_and_what_is_set_in_stays_set_in()
    {
        Assert.Contains(
            "<a href=\"https://reeds.example.org/orders/1?a=1&amp;b=2\">https://reeds.example.org/orders/1?a=1&amp;b=2</a>.",
            Written.HtmlBody,
            StringComparison.Ordinal
        );
        Assert.Contains("<span class=\"in\">4 of 3½ (clarinet)</span>", Written.HtmlBody, StringComparison.Ordinal);
        Assert.Contains("19:00-19:10&emsp;7&emsp;soak", Written.HtmlBody, StringComparison.Ordinal);
        Assert.Contains("<p class=\"foot\">No more letters", Written.HtmlBody, StringComparison.Ordinal);
    }

    // HTML, 3.2.6.2 and 3.2.6.4: what a voice and a translator go by, and where lines begin.
    [Theory]
    [InlineData("en-GB", "ltr")]
    [InlineData("de-DE", "ltr")]
    [InlineData("he-IL", "rtl")]
    public void Its_language_and_the_way_it_is_read_are_said(string language, string way)
    {
        var letter = Letter.Of(Message(Text, language), new MailOptions());

        Assert.StartsWith(
            $"<!DOCTYPE html>\n<html lang=\"{language}\" dir=\"{way}\">\n",
            letter.HtmlBody!.ReplaceLineEndings("\n"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Nothing_is_fetched_from_anywhere_and_nothing_runs()
    {
        foreach (var taboo in new[] { "src=", "<img", "<link", "<script", "url(", "@import", "<iframe", "<form" })
        {
            Assert.DoesNotContain(taboo, Written.HtmlBody, StringComparison.OrdinalIgnoreCase);
        }

        Assert.Contains(
            "<meta name=\"color-scheme\" content=\"light dark\">",
            Written.HtmlBody,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Made_again_it_is_the_same_letter_byte_for_byte()
    {
        Assert.Equal(Bytes(Written), Bytes(Letter.Of(Message(Text), new MailOptions())));
    }

    // RFC 5322, 2.1.1: no line of a letter is longer than 998 characters.
    [Fact]
    public void Long_lines_are_carried_as_a_mail_server_can_take_them()
    {
        var letter = Letter.Of(Message(string.Concat(Enumerable.Repeat("três lixas ½, ", 200))), new MailOptions());

        var lines = System.Text.Encoding.Latin1.GetString(Bytes(letter)).Split('\n');
        Assert.All(lines, line => Assert.InRange(line.TrimEnd('\r').Length, 0, 998));
    }

    private static byte[] Bytes(MimeMessage letter)
    {
        using var bytes = new MemoryStream();
        letter.WriteTo(bytes);
        return bytes.ToArray();
    }

    private static OutboxMessage Message(string text, string language = "en-GB") =>
        new()
        {
            Kind = "shipped",
            Subject = "order 12",
            To = "ana@example.org",
            Title = "Order 12 <b>",
            Text = text,
            Language = language,
            CreatedUtc = new DateTime(2027, 3, 1, 9, 0, 0, DateTimeKind.Utc),
            MessageId = "shipped.0123456789abcdef0123456789abcdef@reedshop.invalid",
        };
}
