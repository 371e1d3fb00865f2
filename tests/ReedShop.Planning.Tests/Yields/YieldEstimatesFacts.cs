using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Yields;

public sealed class YieldEstimatesFacts
{
    private static readonly DateOnly Today = new(2027, 3, 1);

    [Fact]
    public void Without_a_history_the_estimate_says_that_it_knows_little()
    {
        var step = YieldEstimates
            .From(YieldHistory.Empty, Today, YieldSettings.Default)
            .For("clarinet", null)
            .Step("flatten");
        Assert.InRange(step.Mean, 0.7, 0.85);
        Assert.InRange(step.Low, 0.2, 0.5);
        Assert.InRange(step.High, 0.97, 1);
        Assert.Equal(0, step.Batches);
        Assert.Equal(0, step.Blanks);
    }
}
