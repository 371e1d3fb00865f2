using ReedShop.Planning;
using Xunit;

namespace ReedShop.Planning.Tests;

public sealed class StrengthFacts
{
    [Theory]
    [InlineData("3½", 14)]
    [InlineData("3.5", 14)]
    [InlineData("3.25", 13)]
    [InlineData(" 2¾ ", 11)]
    [InlineData("4", 16)]
    public void A_strength_is_read_as_players_write_it(string text, int quarters)
    {
        Assert.True(Strength.TryParse(text, out var strength));
        Assert.Equal(quarters, strength.Quarters);
    }

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("3.3")]
    [InlineData("0.5")]
    [InlineData("7")]
    [InlineData("½")]
    [InlineData("hard")]
    public void Anything_off_the_quarter_scale_is_refused(string? text) => Assert.False(Strength.TryParse(text, out _));

    [Fact]
    public void A_strength_is_written_as_players_write_it() =>
        Assert.Equal(["3", "3¼", "3½", "3¾"], new[] { 12, 13, 14, 15 }.Select(q => Strength.OfQuarters(q).ToString()));
}
