using System.Text.Json;
using ReedShop.Platform;
using ReedShop.Tests.Orders;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Payments;

/// <summary>Letters about money, in the language the order was placed in. Expected texts are written by hand.</summary>
public sealed class PaymentLetterFacts
{
    [Theory]
    [InlineData(
        "de",
        "Bitte zahlen Sie 7,00\u00A0€ mit Karte",
        "  2 in Stärke 3½ (B-Klarinette)",
        "Das macht zusammen 7,00\u00A0€. Alles ist bezahlt: 7,00\u00A0€ sind mit Karte eingegangen.",
        "Bestellung 1 bei Harbour reeds: 7,00\u00A0€ gingen an Sie zurück"
    )]
    [InlineData(
        "fr",
        "Veuillez payer 7,00\u00A0€ par carte",
        "  2 en force 3½ (Clarinette en si bémol)",
        "Le total est de 7,00\u00A0€. Tout est payé : 7,00\u00A0€ ont été reçus par carte.",
        "Commande 1 chez Harbour reeds : 7,00\u00A0€ vous ont été rendus"
    )]
    [InlineData(
        "pt",
        "Pague, por favor, 7,00\u00A0€ com cartão",
        "  2 de força 3½ (Clarinete em si bemol)",
        "O total é de 7,00\u00A0€. Está tudo pago: foram recebidos 7,00\u00A0€ por cartão.",
        "Encomenda 1 em Harbour reeds: 7,00\u00A0€ foram-lhe devolvidos"
    )]
    [InlineData(
        "en",
        "Please pay €7.00 by card",
        "  2 of 3½ (B-flat clarinet)",
        "It comes to €7.00. All of it is paid: €7.00 came in by card.",
        "Order 1 at Harbour reeds: €7.00 went back to you"
    )]
    public async Task An_order_paid_by_card_and_cancelled_has_all_its_letters_in_its_language(
        string language,
        string pay,
        string line,
        string paid,
        string back
    )
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order(language: language);
        await Pay(paying, order);
        await paying.CancelAsBuyer(order);

        var held = await The(paying, "payment-wanted", language);
        Assert.Contains(pay, held.Text, StringComparison.Ordinal);
        var confirmed = await The(paying, "order-confirmed", language);
        Assert.Contains(line, confirmed.Text, StringComparison.Ordinal);
        Assert.Contains(paid, confirmed.Text, StringComparison.Ordinal);
        Assert.Contains($"/orders/{PayingShop.Id(order)}", confirmed.Text, StringComparison.Ordinal);
        Assert.True(held.Asked && confirmed.Asked, "The buyer waits for these, even at night.");
        Assert.Equal(back, (await The(paying, "refunded", language)).Title);
        await The(paying, "order-cancelled", language);
    }

    [Fact]
    public async Task A_deposit_its_rest_and_what_was_paid_twice_are_told_in_the_language_of_the_order()
    {
        await using var paying = await PayingShop.Open(payment: new { depositShare = 0.4 });
        var order = await paying.Order(language: "de");
        await Pay(paying, order);
        await paying.Shop.Tick("ask-for-balances");
        using var buyer = new Visitor(paying.Shop);
        var page = $"/orders/{PayingShop.Id(order)}";
        await buyer.PostFrom(page, $"{page}/pay");
        var session = PayingShop.SessionOf(await paying.Read(order));
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/paid", new { });
        paying.Stripe.PayAfterAll(session);
        await paying.TellOfSession(session);
        await paying.Tick();

        await Says(paying, "payment-wanted", "Bitte zahlen Sie 2,80\u00A0€ von insgesamt 7,00\u00A0€ mit Karte");
        await Says(
            paying,
            "order-confirmed",
            "Davon sind 2,80\u00A0€ mit Karte eingegangen; um den Rest bitten wir Sie"
        );
        await Says(paying, "balance-wanted", "sobald der Rest des Preises, 4,20\u00A0€, bezahlt ist");
        await Says(paying, "paid-too-late", "Ihre Zahlung von 4,20\u00A0€ kam, als Bestellung 1 schon bezahlt war.");
        await Says(paying, "refunded", "gingen 4,20\u00A0€ an Sie zurück");
    }

    [Fact]
    public async Task An_order_not_paid_in_time_and_money_that_comes_too_late_are_told_in_its_language()
    {
        await using var paying = await PayingShop.Open(drawer: 2);
        var order = await paying.Order(language: "de");
        await paying.Tick(TimeSpan.FromMinutes(32));
        await paying.Tick();
        await paying.PaidOrder(email: "ben@example.org");

        paying.Stripe.PayAfterAll(PayingShop.SessionOf(order));
        await paying.TellOfSession(PayingShop.SessionOf(order));
        await paying.Tick();

        await Says(paying, "payment-expired", "Ihre Bestellung 1 wurde nicht rechtzeitig bezahlt");
        await Says(paying, "paid-too-late", "Ihre Zahlung von 7,00\u00A0€ kam, als Bestellung 1 schon beendet war");
    }

    private static async Task Pay(PayingShop paying, JsonElement order)
    {
        Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        await paying.ComeBack(order);
    }

    private static async Task Says(PayingShop paying, string kind, string words) =>
        Assert.Contains(words, (await The(paying, kind, "de")).Text, StringComparison.Ordinal);

    /// <summary>The one letter of its kind to Ana, which has English in it only if it should.</summary>
    private static async Task<OutboxMessage> The(PayingShop paying, string kind, string language)
    {
        var letter = Assert.Single(await Letters(paying.Shop, kind), found => found.To == "ana@example.org");
        Assert.Equal(language == "en", LetterFacts.HasEnglish(letter));
        Assert.StartsWith(language, letter.Language, StringComparison.Ordinal);
        return letter;
    }

    [Fact]
    public async Task The_maker_is_told_once_of_an_order_that_was_not_paid()
    {
        await using var paying = await PayingShop.Open();
        await paying.Order();
        await paying.Shop.Tick("unpaid-orders");
        Assert.DoesNotContain("not-paid", await paying.Letters("maker@example.org"));

        await paying.Tick(TimeSpan.FromMinutes(40));
        await paying.Shop.Tick("unpaid-orders");
        await paying.Shop.Tick("unpaid-orders");

        Assert.Single(await paying.Letters("maker@example.org"), kind => kind == "not-paid");
    }
}
