using System.Net;
using ReedShop.Tests.Reminders;

namespace ReedShop.Tests.Messages;

/// <summary>What did not reach its reader, on the owner's page.</summary>
public sealed class UndeliveredFacts
{
    private const string Deliver = "deliver-messages";
    private const string Page = "/bench/messages";

    [Fact]
    public async Task A_letter_that_was_given_up_stands_there_with_what_was_said_and_is_sent_again_by_itself()
    {
        await using var mail = new MailServer { Refuses = true };
        await using var shop = await ShopHost.Start(null, mail.Settings);
        using var owner = await Visitor.Owner(shop);
        await MakersMail.Choose(owner, "00:00", "00:00");
        await MakersMail.Write(shop, "shipped", "order 12");
        await MakersMail.Write(shop, "shipped", "order 13");
        for (var attempt = 0; attempt < 8; attempt++)
        {
            await shop.Tick(Deliver);
            shop.Time.Advance(TimeSpan.FromHours(5));
        }

        var page = await owner.Read(Page);
        Assert.Contains("8, given up", page, StringComparison.Ordinal);
        Assert.Contains("buyer@example.org", page, StringComparison.Ordinal);
        Assert.Contains("mailbox", page, StringComparison.OrdinalIgnoreCase);

        mail.Refuses = false;
        var id = (await shop.GetJson("/api/messages"))[0].GetProperty("id").GetInt64();
        var sent = await owner.PostFrom(Page, $"{Page}/{id}/again");
        Assert.Equal(HttpStatusCode.SeeOther, sent.StatusCode);
        await shop.Tick(Deliver);
        Assert.Single(mail.Taken);
        Assert.Single((await shop.GetJson("/api/messages")).EnumerateArray());

        await owner.PostFrom(Page, $"{Page}/again");
        await shop.Tick(Deliver);
        Assert.Equal(2, mail.Taken.Count);
        Assert.Contains("Everything has been delivered", await owner.Read(Page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_letter_that_was_delivered_is_not_sent_again()
    {
        await using var mail = new MailServer();
        await using var shop = await ShopHost.Start(null, mail.Settings);
        await MakersMail.Write(shop, "shipped", "order 12");
        await shop.Tick(Deliver);

        var again = await shop.Send(HttpMethod.Post, "/api/messages/1/retry", new { });

        await ShopHost.ReadProblem(again, HttpStatusCode.NotFound, "not-found");
        await shop.Tick(Deliver);
        Assert.Single(mail.Taken);
    }

    // 2, 4, 8 ... minutes after each attempt.
    [Fact]
    public async Task Each_attempt_waits_twice_as_long_as_the_one_before()
    {
        await using var mail = new MailServer { Refuses = true };
        await using var shop = await ShopHost.Start(null, mail.Settings);
        await MakersMail.Write(shop, "shipped", "order 12");
        var minutes = new List<int>();
        for (var minute = 0; minute < 63; minute++)
        {
            await shop.Tick(Deliver);
            if (mail.Refused.Count > minutes.Count)
            {
                minutes.Add(minute);
            }

            shop.Time.Advance(TimeSpan.FromMinutes(1));
        }

        Assert.Equal([0, 2, 6, 14, 30, 62], minutes);
    }

    [Fact]
    public async Task Nobody_but_the_owner_sees_them()
    {
        await using var shop = await ShopHost.Start();
        (await Visitor.Owner(shop)).Dispose();
        using var stranger = new Visitor(shop);

        Assert.Equal(HttpStatusCode.Redirect, (await stranger.Get(Page)).StatusCode);
    }
}
