using ReedShop.Planning;
using Xunit;

namespace ReedShop.Planning.Tests;

public sealed class ThicknessFacts
{
    /// <summary>1 in = 25.4 mm exactly (NIST SP 811, appendix B; value from memory).</summary>
    [Theory]
    [InlineData(1000, 25.4)]
    [InlineData(1, 0.0254)]
    [InlineData(2660, 67.564)]
    public void Thousandths_of_an_inch_are_compared_through_the_exact_inch(int count, double millimetres) =>
        Assert.Equal((decimal)millimetres, new Thickness(count, LengthUnit.Inch).Millimetres);

    [Fact]
    public void A_reading_keeps_the_unit_of_its_gauge()
    {
        Assert.Equal("3.15 mm", new Thickness(315, LengthUnit.Millimetre).ToString());
        Assert.Equal("0.124 in", new Thickness(124, LengthUnit.Inch).ToString());
        Assert.NotEqual(new Thickness(10, LengthUnit.Inch), new Thickness(10, LengthUnit.Millimetre));
    }
}
