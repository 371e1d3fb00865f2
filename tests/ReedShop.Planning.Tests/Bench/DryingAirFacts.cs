using ReedShop.Planning.Bench;
using Xunit;

namespace ReedShop.Planning.Tests.Bench;

/// <summary>Where dry ends and damp begins is common practice, no source.</summary>
public sealed class DryingAirFacts
{
    [Theory]
    [InlineData(20, 0.5, DryingAir.Dry)]
    [InlineData(20, 0.65, DryingAir.Slow)]
    [InlineData(20, 0.8, DryingAir.Damp)]
    public void A_room_of_20_degrees_is_sorted_by_its_humidity(double celsius, double humidity, DryingAir air) =>
        Assert.Equal(air, DryingAirs.Of(celsius, WoodMoisture.EquilibriumPercent(celsius, humidity)));

    [Fact]
    public void A_cold_room_is_slow_however_dry_its_air()
    {
        var moisture = WoodMoisture.EquilibriumPercent(5, 0.3);

        Assert.True(moisture < DryingAirs.DriestSlowPercent);
        Assert.Equal(DryingAir.Slow, DryingAirs.Of(5, moisture));
    }

    [Theory]
    [InlineData(10.99, DryingAir.Dry)]
    [InlineData(11, DryingAir.Slow)]
    [InlineData(13.99, DryingAir.Slow)]
    [InlineData(14, DryingAir.Damp)]
    public void A_limit_belongs_to_the_slower_side(double moisturePercent, DryingAir air) =>
        Assert.Equal(air, DryingAirs.Of(20, moisturePercent));
}
