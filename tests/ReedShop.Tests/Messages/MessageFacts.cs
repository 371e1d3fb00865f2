using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.DependencyInjection;
using MimeKit;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Messages;

public sealed class MessageFacts
{
    private const string Deliver = "deliver-messages";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_message_is_delivered_once()
    {
        await using var mail = new MailServer();
        await using var shop = await ShopHost.Start(null, mail.Settings);
        await Write(shop, "order 12");

        await shop.Tick(Deliver);
        await shop.Tick(Deliver);

        var letter = Assert.Single(mail.Taken);
        Assert.Equal("Thank you", letter.Subject);
        Assert.Equal("buyer@example.org", letter.To.Mailboxes.Single().Address);
        Assert.Equal("shop@example.org", letter.From.Mailboxes.Single().Address);
        Assert.Equal("Ten of 3½ are on their way.", letter.TextBody!.Trim());
        Assert.Equal(0, (await shop.GetJson("/api/messages")).GetArrayLength());
    }

    [Fact]
    public async Task Two_deliveries_at_once_send_a_message_once()
    {
        await using var mail = new MailServer();
        await using var shop = await ShopHost.Start(null, mail.Settings);
        await Write(shop, "order 12");

        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => shop.Tick(Deliver)));

        Assert.Single(mail.Taken);
    }

    [Fact]
    public async Task A_refused_message_comes_again_later_under_the_same_id()
    {
        await using var mail = new MailServer { Refuses = true };
        await using var shop = await ShopHost.Start(null, mail.Settings);
        await Write(shop, "order 12");
        await shop.Tick(Deliver);
        mail.Refuses = false;

        await shop.Tick(Deliver);
        Assert.Empty(mail.Taken);
        shop.Time.Advance(TimeSpan.FromMinutes(2));
        await shop.Tick(Deliver);

        Assert.Equal(Assert.Single(mail.Refused), Assert.Single(mail.Taken).MessageId);
    }

    [Fact]
    public async Task A_refusal_of_one_message_does_not_hold_up_the_next()
    {
        await using var mail = new MailServer { Refuses = true };
        await using var shop = await ShopHost.Start(null, mail.Settings);
        await Write(shop, "order 12");
        await Write(shop, "order 13");

        await shop.Tick(Deliver);

        Assert.Equal(2, mail.Refused.Count);
    }

    [Fact]
    public async Task While_the_server_cannot_be_reached_one_message_a_minute_tries_it()
    {
        await using var shop = await ShopHost.Start(null, NobodyListens());
        await Write(shop, "order 12");
        await Write(shop, "order 13");

        await shop.Tick(Deliver);

        var attempts = (await shop.GetJson("/api/messages"))
            .EnumerateArray()
            .Select(m => m.GetProperty("attempts").GetInt32());
        Assert.Equal([1, 0], attempts);
    }

    [Fact]
    public async Task After_eight_attempts_a_message_waits_for_the_owner()
    {
        await using var mail = new MailServer { Refuses = true };
        await using var shop = await ShopHost.Start(null, mail.Settings);
        await Write(shop, "order 12");
        for (var attempt = 0; attempt < 9; attempt++)
        {
            await shop.Tick(Deliver);
            shop.Time.Advance(TimeSpan.FromHours(5));
        }

        var waiting = Assert.Single((await shop.GetJson("/api/messages")).EnumerateArray());
        Assert.Equal(8, mail.Refused.Count);
        Assert.Equal(8, waiting.GetProperty("attempts").GetInt32());
        Assert.Contains("mailbox", waiting.GetProperty("lastError").GetString(), StringComparison.OrdinalIgnoreCase);
        Assert.False(waiting.TryGetProperty("nextTryUtc", out _));

        mail.Refuses = false;
        await shop.PostJson("/api/messages/retry", new { });
        await shop.Tick(Deliver);
        Assert.Single(mail.Taken);
    }

    [Fact]
    public async Task Without_a_mail_server_letters_lie_in_the_data_folder()
    {
        await using var shop = await ShopHost.Start();
        await Write(shop, "order 12");

        await shop.Tick(Deliver);

        var file = Assert.Single(Directory.GetFiles(Path.Combine(shop.Folder, "mail")));
        Assert.EndsWith(".eml", file, StringComparison.Ordinal);
        var letter = await MimeMessage.LoadAsync(file, Cancel);
        Assert.Equal("Thank you", letter.Subject);
        Assert.EndsWith("@reedshop.invalid", letter.MessageId, StringComparison.Ordinal);
    }

    private static (string Name, string? Value)[] NobodyListens() => MailServer.SettingsFor(FreePort.Next());

    private static Task Write(ShopHost shop, string subject) =>
        shop.Within(services =>
        {
            var outbox = services.GetRequiredService<OutboxStore>();
            outbox.Add("shipped", subject, "buyer@example.org", "Thank you", "Ten of 3½ are on their way.");
            return outbox.Save(Cancel);
        });
}
