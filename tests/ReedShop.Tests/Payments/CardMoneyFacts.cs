using CsCheck;
using ReedShop.Payments;

namespace ReedShop.Tests.Payments;

/// <summary>
/// Amounts as Stripe is sent them. Its own examples: 10 USD is 1000, 500 yen is 500, 5 krónur are 500, 5.124 dinars of
/// Kuwait must be 5120 or 5130 (Stripe's page on currencies, read).
/// </summary>
public sealed class CardMoneyFacts
{
    [Theory]
    [InlineData("USD", 1000, 1000)]
    [InlineData("EUR", 4295, 4295)]
    [InlineData("JPY", 500, 500)]
    [InlineData("ISK", 5, 500)]
    [InlineData("KWD", 5120, 5120)]
    [InlineData("MGA", 50000, 500)]
    public void An_amount_is_sent_in_Stripes_unit(string currency, long minor, long sent)
    {
        var card = CardMoney.Of(currency)!;
        Assert.Equal(sent, card.ToStripe(minor));
        Assert.Equal(minor, card.FromStripe(sent));
    }

    [Theory]
    [InlineData("KWD", 5124, 5120)]
    [InlineData("KWD", 5125, 5130)]
    [InlineData("KWD", 5126, 5130)]
    [InlineData("MGA", 50049, 50000)]
    [InlineData("MGA", 50050, 50100)]
    [InlineData("EUR", 1, 1)]
    public void What_cannot_be_charged_is_rounded_to_the_nearest_that_can_halves_up(
        string currency,
        long minor,
        long payable
    ) => Assert.Equal(payable, CardMoney.Of(currency)!.Payable(minor));

    [Theory]
    [InlineData("EUR", 50)]
    [InlineData("JPY", 50)]
    [InlineData("KWD", 500)]
    [InlineData("SEK", 300)]
    [InlineData("ISK", 1)]
    public void A_card_is_charged_no_less_than_Stripe_takes(string currency, long least) =>
        Assert.Equal(least, CardMoney.Of(currency)!.Least);

    [Fact]
    public void An_amount_that_was_not_rounded_is_never_sent() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CardMoney.Of("KWD")!.ToStripe(5124));

    [Theory]
    [InlineData("UGX")]
    [InlineData("IQD")]
    [InlineData("LYD")]
    public void Where_it_is_not_certain_how_an_amount_is_written_cards_are_not_taken(string currency) =>
        Assert.Null(CardMoney.Of(currency));

    [Fact]
    public void A_payable_amount_survives_the_way_there_and_back()
    {
        string[] currencies = ["EUR", "USD", "JPY", "ISK", "KWD", "BHD", "MGA", "XPF", "PYG"];
        Gen.Select(Gen.Int[0, currencies.Length - 1].Select(at => currencies[at]), Gen.Long[0, 1_000_000_000])
            .Sample(
                (currency, minor) =>
                {
                    var card = CardMoney.Of(currency)!;
                    var payable = card.Payable(minor);
                    Assert.Equal(payable, card.FromStripe(card.ToStripe(payable)));
                    Assert.Equal(payable, card.Payable(payable));
                    Assert.True(Math.Abs(payable - minor) <= (currency == "MGA" ? 50 : 5));
                    Assert.Equal(0, card.ToStripe(payable) % card.Step);
                }
            );
    }
}
