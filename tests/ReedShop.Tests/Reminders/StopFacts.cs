using System.Net;
using MimeKit;

namespace ReedShop.Tests.Reminders;

/// <summary>Letters that stop their own kind (RFC 8058, One-Click).</summary>
public sealed class StopFacts
{
    private const string PublicAddress = "https://reeds.example.org";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    // RFC 8058, 3.1: one List-Unsubscribe with an https address, and a List-Unsubscribe-Post of that very text.
    [Fact]
    public async Task A_reminder_carries_the_address_that_stops_its_kind()
    {
        await using var shop = await Morning(PublicAddress);

        var letter = await DayList(shop);

        var link = letter.Headers["List-Unsubscribe"]!;
        Assert.Matches("^<https://reeds\\.example\\.org/letters/[0-9a-f]{32}/day-list>$", link);
        Assert.Equal("List-Unsubscribe=One-Click", letter.Headers["List-Unsubscribe-Post"]);
        Assert.Contains(link.Trim('<', '>'), letter.TextBody, StringComparison.Ordinal);
        Assert.Contains($"<a href=\"{link.Trim('<', '>')}\">", letter.HtmlBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_https_there_is_no_button_for_mail_programs_but_the_link_in_the_text()
    {
        await using var shop = await Morning("http://192.0.2.1:5000");

        var letter = await DayList(shop);

        Assert.False(letter.Headers.Contains("List-Unsubscribe"));
        Assert.False(letter.Headers.Contains("List-Unsubscribe-Post"));
        Assert.Contains("http://192.0.2.1:5000/letters/", letter.TextBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_letter_about_an_order_cannot_be_stopped()
    {
        await using var shop = await Morning(PublicAddress);
        await MakersMail.Write(shop, "order-shipped", "order 12");
        await shop.Tick("deliver-messages");

        var letter = (await Letters(shop)).Single(l => l.Subject == "Thank you");
        Assert.False(letter.Headers.Contains("List-Unsubscribe"));
        Assert.False(letter.Headers.Contains("List-Unsubscribe-Post"));
    }

    // RFC 8058, 3.2: the POST comes without cookies or any other context, and is not redirected.
    [Fact]
    public async Task One_post_stops_the_kind_and_no_other()
    {
        await using var shop = await Morning(PublicAddress);
        using var owner = await Visitor.Owner(shop);
        var path = PathIn(await DayList(shop));

        var answer = await Post(shop, path, "List-Unsubscribe=One-Click");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        MakersMail.SetTime(shop, 2, 8);
        await shop.Tick("morning-reminder");
        Assert.Empty(await MakersMail.Waiting(shop, "day-list"));
        var page = await owner.Read("/bench/letters");
        Assert.Contains("value=\"what-was-done\" checked", page, StringComparison.Ordinal);
        Assert.DoesNotContain("value=\"day-list\" checked", page, StringComparison.Ordinal);
    }

    // RFC 8058, 1: programs that follow every link of a letter must not stop it.
    [Fact]
    public async Task Looking_stops_nothing()
    {
        await using var shop = await Morning(PublicAddress);
        var path = PathIn(await DayList(shop));

        var looked = await shop.Guest.GetAsync(path, Cancel);
        Assert.Contains("Stop them", await looked.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await Post(shop, path, "anything=else")).StatusCode);

        MakersMail.SetTime(shop, 2, 8);
        await shop.Tick("morning-reminder");
        Assert.Single(await MakersMail.Waiting(shop, "day-list"));
    }

    [Theory]
    [InlineData("/letters/0123456789abcdef0123456789abcdef/day-list")]
    [InlineData("/letters/{0}/new-order")]
    [InlineData("/letters/{0}/order-shipped")]
    public async Task A_wrong_address_stops_nothing(string wrong)
    {
        await using var shop = await Morning(PublicAddress);
        var secret = PathIn(await DayList(shop)).Split('/')[2];
        var path = string.Format(System.Globalization.CultureInfo.InvariantCulture, wrong, secret);

        Assert.Equal(HttpStatusCode.NotFound, (await Post(shop, path, "List-Unsubscribe=One-Click")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await shop.Guest.GetAsync(path, Cancel)).StatusCode);
    }

    private static async Task<ShopHost> Morning(string address)
    {
        var shop = await ShopHost.Start(null, ("ReedShop:PublicAddress", address));
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        return shop;
    }

    private static async Task<MimeMessage> DayList(ShopHost shop)
    {
        await shop.Tick("plan-sweep");
        await shop.Tick("morning-reminder");
        await shop.Tick("deliver-messages");
        return Assert.Single(await Letters(shop));
    }

    private static async Task<List<MimeMessage>> Letters(ShopHost shop)
    {
        var letters = new List<MimeMessage>();
        foreach (var file in Directory.GetFiles(Path.Combine(shop.Folder, "mail"), "*.eml"))
        {
            letters.Add(await MimeMessage.LoadAsync(file, Cancel));
        }

        return letters;
    }

    private static string PathIn(MimeMessage letter) =>
        new Uri(letter.Headers["List-Unsubscribe"]!.Trim('<', '>')).AbsolutePath;

    private static Task<HttpResponseMessage> Post(ShopHost shop, string path, string body)
    {
        var form = new StringContent(body, System.Text.Encoding.UTF8, "application/x-www-form-urlencoded");
        return shop.Guest.PostAsync(path, form, Cancel);
    }
}
