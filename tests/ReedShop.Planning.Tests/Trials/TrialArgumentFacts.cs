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
        Assert.Equal(
            new Arguments.TryPromises(new TrialPlan(16, 2, 1, AlwaysAccepted: true), false, "kept.svg"),
            asked
        );
    }

    [Fact]
    public void The_program_is_tried_alone_or_beside_rules_of_thumb()
    {
        Assert.Equal([Rule.Program], Rules("--alone"));
        Assert.Equal(Rule.All, Rules());

        static IReadOnlyList<Rule> Rules(params string[] words) =>
            Assert.IsType<Arguments.TryPromises>(Arguments.Read(["trials", .. words], out _)).Rules;
    }

    [Fact]
    public void Shocks_set_in_after_a_year()
    {
        var asked = Arguments.Read(["trials", "--shock", "cane", "--minutes", "3", "--shock", "told-illness"], out _);
        var shocks = Assert.IsType<Arguments.TryShocks>(asked);
        Assert.Equal([new Shock(ShockKind.Cane, 365), new Shock(ShockKind.ToldIllness, 365)], shocks.Shocks);
        Assert.Equal(TimeSpan.FromMinutes(3), shocks.Plan.Longest);
    }

    [Theory]
    [InlineData("--shops")]
    [InlineData("--shops", "none")]
    [InlineData("--without", "buyers")]
    [InlineData("--rounds", "7")]
    [InlineData("--shock", "fire")]
    [InlineData("--shock", "cane", "--shock", "cane")]
    [InlineData("--shock", "cane", "--years", "1")]
    public void What_trials_do_not_know_is_refused(params string[] words)
    {
        Assert.Null(Arguments.Read(["trials", .. words], out var refusal));
        Assert.Contains(words[0], refusal, StringComparison.Ordinal);
    }
}
