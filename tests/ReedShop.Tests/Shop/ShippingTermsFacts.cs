using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Tests.Shop;

public sealed class ShippingTermsFacts
{
    private static readonly ShippingTerms Terms = new(
        40,
        [
            new ShippingZone("home", ["PT", "ES"], [new ShippingBand(50, 300), new ShippingBand(100, 450)]),
            new ShippingZone("the world", [], [new ShippingBand(60, 1200)]),
        ]
    );

    [Theory]
    [InlineData("PT", 41, 300L)]
    [InlineData("PT", 50, 300L)]
    [InlineData("PT", 51, 450L)]
    [InlineData("ES", 100, 450L)]
    [InlineData("ES", 101, null)]
    [InlineData("JP", 60, 1200L)]
    [InlineData("JP", 61, null)]
    public void A_parcel_costs_what_the_band_of_its_weight_says(string country, int grams, long? price) =>
        Assert.Equal(price, Terms.ZoneOf(country)!.PriceOf(grams));

    [Fact]
    public void Nothing_is_sent_to_a_country_of_no_zone() =>
        Assert.Null((Terms with { Zones = [Terms.Zones[0]] }).ZoneOf("JP"));

    [Theory]
    [InlineData(10, 50)]
    [InlineData(10.1, 51)]
    [InlineData(0, 40)]
    public void A_parcel_weighs_its_reeds_and_its_packing_and_every_begun_gram(double reeds, int grams) =>
        Assert.Equal(grams, Terms.Weigh((decimal)reeds));

    [Fact]
    public void A_country_is_in_one_zone_and_everywhere_else_is_one_zone()
    {
        Assert.Null(Fault(Terms));
        var twice = Fault(Terms with { Zones = [.. Terms.Zones, Terms.Zones[0] with { Countries = ["es"] }] });
        Assert.Equal("2 countries", twice?.Field);
        Assert.Contains("ES belongs to another zone", twice?.Detail, StringComparison.Ordinal);
        Assert.Equal("2 countries", Fault(Terms with { Zones = [.. Terms.Zones, Terms.Zones[1]] })?.Field);
        Assert.Equal("0 countries", Fault(Terms with { Zones = [Terms.Zones[0] with { Countries = ["PX"] }] })?.Field);
        Assert.Equal("0 bands", Fault(Terms with { Zones = [Terms.Zones[0] with { Bands = [] }] })?.Field);
        Assert.Equal("0 name", Fault(Terms with { Zones = [Terms.Zones[0] with { Name = " " }] })?.Field);
    }

    [Theory]
    [InlineData("PT", "PT")]
    [InlineData("uk", "GB")]
    [InlineData("österreich", "AT")]
    [InlineData("Pays-Bas", "NL")]
    [InlineData(" Espanha ", "ES")]
    [InlineData("Atlantis", null)]
    [InlineData("PX", null)]
    [InlineData("", null)]
    public void A_country_is_read_by_its_code_or_its_name_in_a_language_of_the_shop(string text, string? code) =>
        Assert.Equal(code, Countries.Read(text));

    [Theory]
    [InlineData("en-GB", "Germany")]
    [InlineData("de-DE", "Deutschland")]
    [InlineData("fr-FR", "Allemagne")]
    [InlineData("pt-BR", "Alemanha")]
    public void A_country_is_named_in_the_language_of_the_reader(string language, string name) =>
        Assert.Equal(name, Languages.In(language, () => Countries.Name("DE")));

    private static Refusal? Fault(ShippingTerms terms) => terms.Fault("EUR", (zone, part) => $"{zone} {part}");
}
