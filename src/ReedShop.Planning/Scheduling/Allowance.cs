namespace ReedShop.Planning.Scheduling;

/// <summary>
/// What one search chain may still spend. Without a deadline it follows from the rounds alone; a deadline that comes
/// sooner hurries the chain, so that it has cooled by then, and thereby cuts rounds.
/// </summary>
internal sealed class Allowance(PlanBudget budget, long began, CancellationToken cancel)
{
    private const int RoundsBetweenLooks = 16;

    private int rounds;

    /// <summary>Share of the budget that is spent, from 0 to 1.</summary>
    public double Spent { get; private set; }

    /// <summary>Begins a round, unless all is spent.</summary>
    public bool Next()
    {
        if (rounds % RoundsBetweenLooks == 0)
        {
            Spent = Look();
        }

        if (Spent >= 1 || rounds >= budget.Rounds)
        {
            Spent = 1;
            return false;
        }

        rounds++;
        return true;
    }

    private double Look()
    {
        var ofRounds = (double)rounds / budget.Rounds;
        var ofTime = budget.Deadline is { } deadline ? budget.Clock!.GetElapsedTime(began) / deadline : 0;
        return cancel.IsCancellationRequested ? 1 : Math.Max(ofRounds, ofTime);
    }
}
