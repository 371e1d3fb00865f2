using ReedShop.Lab;
using ReedShop.Lab.Trials;
using Xunit;

namespace ReedShop.Planning.Tests.Trials;

public sealed class TrialArgumentFacts
{
    [Fact]
    public void Trials_are_asked_for_in_words()
    {
        var asked = Arguments.Read(["trials", "--shops", "16", "--always", "--diagram", "kept.svg"], out var refusal);
        Assert.Equal("", refusal);
        Assert.Equal(new Arguments.TryPromises(new TrialPlan(16, 2, 1, AlwaysAccepted: true), "kept.svg"), asked);
    }

    [Theory]
    [InlineData("--shops")]
    [InlineData("--shops", "none")]
    [InlineData("--without", "buyers")]
    [InlineData("--rounds", "7")]
    public void What_trials_do_not_know_is_refused(params string[] words)
    {
        Assert.Null(Arguments.Read(["trials", .. words], out var refusal));
        Assert.Contains(words[0], refusal, StringComparison.Ordinal);
    }
}
