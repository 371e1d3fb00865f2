using ReedShop.Messages;
using ReedShop.Tests.Reminders;

namespace ReedShop.Tests.Messages;

/// <summary>Letters go to the mail server encrypted, or not at all, unless the owner has asked for neither.</summary>
public sealed class TlsFacts
{
    private const string Deliver = "deliver-messages";

    // RFC 3207: the connection begins in the clear and turns to TLS by STARTTLS before anything is said; RFC 8314, 3.3:
    // implicit TLS speaks it from the first byte.
    [Theory]
    [InlineData(MailSecurity.StartTls)]
    [InlineData(MailSecurity.Tls)]
    public async Task A_letter_goes_out_encrypted_to_the_server_that_was_named(MailSecurity security)
    {
        await using var mail = new MailServer(security);
        await using var shop = await ShopHost.Start(null, mail.SettingsWith(security, mail.Fingerprint));
        await MakersMail.Write(shop, "shipped", "order 12");

        await shop.Tick(Deliver);

        Assert.Equal("Thank you", Assert.Single(mail.Taken).Subject);
        Assert.True(Assert.Single(mail.Encrypted));
    }

    [Theory]
    [InlineData(MailSecurity.StartTls)]
    [InlineData(MailSecurity.Tls)]
    public async Task A_server_that_nobody_vouches_for_gets_no_letter(MailSecurity security)
    {
        await using var mail = new MailServer(security);
        await using var shop = await ShopHost.Start(null, mail.SettingsWith(security));

        await NothingIsTaken(shop, mail);
    }

    [Fact]
    public async Task Another_certificate_than_the_one_that_was_named_gets_no_letter()
    {
        await using var mail = new MailServer(MailSecurity.Tls);
        await using var shop = await ShopHost.Start(null, mail.SettingsWith(MailSecurity.Tls, new string('a', 64)));

        await NothingIsTaken(shop, mail);
    }

    [Fact]
    public async Task A_server_without_STARTTLS_gets_nothing_in_the_clear_instead()
    {
        await using var mail = new MailServer(MailSecurity.None);
        await using var shop = await ShopHost.Start(null, mail.SettingsWith(MailSecurity.StartTls, mail.Fingerprint));

        await NothingIsTaken(shop, mail);
    }

    [Theory]
    [InlineData(MailServer.Password, 1)]
    [InlineData("another one", 0)]
    public async Task A_server_that_asks_for_a_password_is_told_it_over_TLS(string password, int taken)
    {
        await using var mail = new MailServer(MailSecurity.StartTls, asksForPassword: true);
        await using var shop = await ShopHost.Start(
            null,
            [
                .. mail.SettingsWith(MailSecurity.StartTls, mail.Fingerprint),
                ("ReedShop:Mail:User", MailServer.User),
                ("ReedShop:Mail:Password", password),
            ]
        );
        await MakersMail.Write(shop, "shipped", "order 12");

        await shop.Tick(Deliver);

        Assert.Equal(taken, mail.Taken.Count);
        Assert.All(mail.Encrypted, Assert.True);
    }

    private static async Task NothingIsTaken(ShopHost shop, MailServer mail)
    {
        await MakersMail.Write(shop, "shipped", "order 12");

        await shop.Tick(Deliver);

        Assert.Empty(mail.Taken);
        var waiting = Assert.Single((await shop.GetJson("/api/messages")).EnumerateArray());
        Assert.Equal(1, waiting.GetProperty("attempts").GetInt32());
        Assert.NotEmpty(waiting.GetProperty("lastError").GetString()!);
    }
}
