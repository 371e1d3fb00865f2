using ReedShop.Planning.Bench;
using Xunit;

namespace ReedShop.Planning.Tests.Bench;

public sealed class WoodMoistureFacts
{
    /// <summary>
    /// Wood Handbook (USDA Forest Products Laboratory), table 4-2: percent of dry mass at 5, 10, 15 … 95 % relative
    /// humidity, by °F (values from memory).
    /// </summary>
    public static TheoryData<int, double[]> Table42 { get; } =
        new()
        {
            {
                30,
                [1.4, 2.6, 3.7, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.4, 11.3, 12.4, 13.5, 14.9, 16.5, 18.5, 21.0, 24.3]
            },
            {
                40,
                [1.4, 2.6, 3.7, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.4, 11.3, 12.3, 13.5, 14.9, 16.5, 18.5, 21.0, 24.3]
            },
            {
                50,
                [1.4, 2.6, 3.6, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.3, 11.2, 12.3, 13.4, 14.8, 16.4, 18.4, 20.9, 24.3]
            },
            {
                60,
                [1.3, 2.5, 3.6, 4.6, 5.4, 6.2, 7.0, 7.8, 8.6, 9.4, 10.2, 11.1, 12.1, 13.3, 14.6, 16.2, 18.2, 20.7, 24.1]
            },
            {
                70,
                [1.3, 2.5, 3.5, 4.5, 5.4, 6.2, 6.9, 7.7, 8.5, 9.2, 10.1, 11.0, 12.0, 13.1, 14.4, 16.0, 17.9, 20.5, 23.9]
            },
            {
                80,
                [1.3, 2.4, 3.5, 4.4, 5.3, 6.1, 6.8, 7.6, 8.3, 9.1, 9.9, 10.8, 11.7, 12.9, 14.2, 15.7, 17.7, 20.2, 23.6]
            },
            {
                90,
                [1.2, 2.3, 3.4, 4.3, 5.1, 5.9, 6.7, 7.4, 8.1, 8.9, 9.7, 10.5, 11.5, 12.6, 13.9, 15.4, 17.3, 19.8, 23.3]
            },
            {
                100,
                [1.2, 2.3, 3.3, 4.2, 5.0, 5.8, 6.5, 7.2, 7.9, 8.7, 9.5, 10.3, 11.2, 12.3, 13.6, 15.1, 17.0, 19.5, 22.9]
            },
        };

    /// <summary>The table is rounded to tenths, and the coefficients for °C and °F are rounded apart, hence .07.</summary>
    [Theory]
    [MemberData(nameof(Table42))]
    public void Wood_rests_at_the_moisture_of_the_handbook(int fahrenheit, double[] percents)
    {
        var celsius = (fahrenheit - 32) / 1.8;
        Assert.Equal(19, percents.Length);
        for (var index = 0; index < percents.Length; index++)
        {
            var computed = WoodMoisture.EquilibriumPercent(celsius, 0.05 * (index + 1));
            Assert.Equal(percents[index], computed, 0.07);
        }
    }

    /// <summary>Points of the handbook's equation 4-5 with its °C coefficients (coefficients read, points recomputed).</summary>
    [Theory]
    [InlineData(20, 0.65, 11.9963)]
    [InlineData(20, 0.5, 9.2711)]
    [InlineData(60, 0.8, 13.5611)]
    [InlineData(25, 0.4, 7.6082)]
    [InlineData(10, 0.8, 16.3822)]
    [InlineData(0, 0.9, 21.0257)]
    [InlineData(21.1111, 0.65, 11.9581)]
    public void The_equation_gives_its_points(double celsius, double relativeHumidity, double percent) =>
        Assert.Equal(percent, WoodMoisture.EquilibriumPercent(celsius, relativeHumidity), 0.001);

    [Fact]
    public void Air_without_water_leaves_none_in_the_wood() => Assert.Equal(0, WoodMoisture.EquilibriumPercent(20, 0));

    [Theory]
    [InlineData(65)]
    [InlineData(-0.01)]
    [InlineData(double.NaN)]
    public void A_humidity_that_is_no_share_is_a_fault(double relativeHumidity) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WoodMoisture.EquilibriumPercent(20, relativeHumidity));
}
