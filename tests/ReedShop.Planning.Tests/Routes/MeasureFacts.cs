using ReedShop.Planning.Routes;
using Xunit;

namespace ReedShop.Planning.Tests.Routes;

public sealed class MeasureFacts
{
    private static readonly Measure Heel = new(new Thickness(310, LengthUnit.Millimetre), 5);

    [Theory]
    [InlineData("3.04", true, false)]
    [InlineData("3.05", false, false)]
    [InlineData("3.15", false, false)]
    [InlineData("3.16", false, true)]
    public void The_ends_of_the_tolerance_are_still_right(string reading, bool isTooThin, bool isTooThick)
    {
        var read = Thickness.Of(
            decimal.Parse(reading, System.Globalization.CultureInfo.InvariantCulture),
            LengthUnit.Millimetre
        );

        Assert.Equal((isTooThin, isTooThick), (Heel.IsTooThin(read), Heel.IsTooThick(read)));
    }

    /// <summary>1 in = 25.4 mm exactly (NIST SP 811, appendix B): .120 in are 3.048 mm, .121 in 3.0734 mm.</summary>
    [Fact]
    public void A_reading_in_inches_is_held_against_millimetres_through_the_exact_inch()
    {
        Assert.True(Heel.IsTooThin(Thickness.Of(0.120m, LengthUnit.Inch)));
        Assert.False(Heel.IsTooThin(Thickness.Of(0.121m, LengthUnit.Inch)));
        Assert.Equal("0.122", Heel.Target.In(LengthUnit.Inch).Figure);
        Assert.Equal("3.07 mm", Thickness.Of(0.121m, LengthUnit.Inch).In(LengthUnit.Millimetre).ToString());
    }
}
