using System.Globalization;
using System.Net;
using System.Text;
using ReedShop.Payments;
using Stripe;

namespace ReedShop.Tests.Payments;

public sealed class SignatureFacts
{
    private const string Payload =
        "{\"id\":\"evt_test_1\",\"object\":\"event\",\"type\":\"checkout.session.completed\"}";

    /// <summary>Computed independently for the payload above, the secret whsec_test_secret and second 1700000000.</summary>
    private const string Reference = "t=1700000000,v1=ca796b857b81e24d595a4c37abf88d2fafb533a32ede6ce4cfc9b0e892a35b08";

    private static readonly DateTime Then = DateTimeOffset.FromUnixTimeSeconds(1_700_000_000).UtcDateTime;

    /// <summary>RFC 4231, test cases 1 and 2 (read): HMAC-SHA-256.</summary>
    [Theory]
    [InlineData(
        "0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b",
        "4869205468657265",
        "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7"
    )]
    [InlineData(
        "4a656665",
        "7768617420646f2079612077616e7420666f72206e6f7468696e673f",
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    )]
    public void The_code_of_a_message_is_that_of_RFC_4231(string key, string text, string code) =>
        Assert.Equal(code, StripeSignature.Of(Convert.FromHexString(key), Convert.FromHexString(text)));

    [Fact]
    public void The_reference_is_accepted() => Assert.True(IsValid(Reference, Then));

    [Theory]
    [InlineData(300, true)]
    [InlineData(301, false)]
    [InlineData(-300, true)]
    [InlineData(-301, false)]
    public void A_signature_is_good_for_five_minutes(int seconds, bool isGood) =>
        Assert.Equal(isGood, IsValid(Reference, Then.AddSeconds(seconds)));

    [Theory]
    // The code of the body alone, without its second.
    [InlineData("t=1700000000,v1=5a1cadf2b12a067597e8a68737c72ebf0ed0be95476a7f60228c2f5bf109f95b")]
    // Another second than was signed.
    [InlineData("t=1700000001,v1=ca796b857b81e24d595a4c37abf88d2fafb533a32ede6ce4cfc9b0e892a35b08")]
    // The good code under a scheme that is not taken.
    [InlineData("t=1700000000,v0=ca796b857b81e24d595a4c37abf88d2fafb533a32ede6ce4cfc9b0e892a35b08")]
    [InlineData("v1=ca796b857b81e24d595a4c37abf88d2fafb533a32ede6ce4cfc9b0e892a35b08")]
    [InlineData("t=1700000000")]
    [InlineData("t=,v1=")]
    [InlineData("t=-1700000000,v1=ca796b857b81e24d595a4c37abf88d2fafb533a32ede6ce4cfc9b0e892a35b08")]
    [InlineData("")]
    [InlineData(null)]
    public void A_forged_signature_is_not_accepted(string? header) => Assert.False(IsValid(header, Then));

    [Fact]
    public void Any_of_several_signatures_may_fit_as_when_the_secret_is_being_changed() =>
        Assert.True(IsValid(Reference.Replace(",v1=", ",v1=00ff,v0=1234,v1=", StringComparison.Ordinal), Then));

    [Fact]
    public void The_library_of_Stripe_agrees()
    {
        EventUtility.ValidateSignature(Payload, Reference, StripeStandIn.WebhookSecret, 300, 1_700_000_000);
        var theirs = EventUtility.ComputeSignature(
            StripeStandIn.WebhookSecret,
            1_700_000_000.ToString(CultureInfo.InvariantCulture),
            Payload
        );
        Assert.Equal(Reference.Split("v1=")[1], theirs);
    }

    [Fact]
    public async Task A_forged_or_stale_word_is_refused_and_leaves_nothing_behind()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        paying.Stripe.Pay(PayingShop.SessionOf(order));
        var body = PayingShop.Event(
            "checkout.session.completed",
            paying.Stripe.Sessions[PayingShop.SessionOf(order)].Shape(),
            "evt_1"
        );
        var now = paying.Shop.Time.GetUtcNow();

        var forged = await paying.Post(body, PayingShop.Sign(body, now, "whsec_another"));
        var stale = await paying.Post(body, PayingShop.Sign(body, now.AddMinutes(-6)));
        var changed = await paying.Post(body + " ", PayingShop.Sign(body, now));
        var large = await paying.Post(new string(' ', 300_000), PayingShop.Sign(body, now));
        var noEvent = await paying.Post("[]");

        await ShopHost.ReadProblem(forged, HttpStatusCode.BadRequest, "unreadable");
        await ShopHost.ReadProblem(stale, HttpStatusCode.BadRequest, "unreadable");
        await ShopHost.ReadProblem(changed, HttpStatusCode.BadRequest, "unreadable");
        await ShopHost.ReadProblem(large, HttpStatusCode.RequestEntityTooLarge, "too-large");
        await ShopHost.ReadProblem(noEvent, HttpStatusCode.BadRequest, "unreadable");
        await paying.Tick();
        Assert.Equal("awaitingPayment", await paying.Status(order));
    }

    /// <summary>A word with a good signature is not believed either: Stripe is asked.</summary>
    [Fact]
    public async Task A_word_that_a_session_was_paid_is_not_believed()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();

        var answer = await paying.TellOfSession(PayingShop.SessionOf(order));
        await paying.Tick();

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("awaitingPayment", await paying.Status(order));
    }

    [Fact]
    public async Task Without_keys_there_is_no_such_door()
    {
        await using var shop = await ShopHost.Start();

        var answer = await ShopHost.Send(shop.Guest, HttpMethod.Post, "/webhooks/stripe", new { });

        await ShopHost.ReadProblem(answer, HttpStatusCode.NotFound, "not-found");
    }

    private static bool IsValid(string? header, DateTime now) =>
        StripeSignature.IsValid(Encoding.UTF8.GetBytes(Payload), header, StripeStandIn.WebhookSecret, now);
}
