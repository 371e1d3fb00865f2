namespace ReedShop.Planning.Yields;

/// <summary>
/// Holds the last batches of every step of every model, and their strength, against the posterior predictive of what came
/// before them: two-sided tail probabilities of their totals, corrected (Sidak) for looking at many at once.
/// </summary>
internal static class DriftCheck
{
    /// <summary>Few enough to notice a change within weeks, enough not to blame one bad batch.</summary>
    private const int Recent = 4;

    /// <summary>With fewer batches before, the predictive is so wide that a warning would say more of us than of the bench.</summary>
    private const int LeastBefore = 8;

    /// <summary>The page is looked at often: one false warning in a hundred looks is as many as a maker forgives.</summary>
    private const double MostChance = 0.01;

    private const double TailEachSide = 0.05;

    /// <summary>Quarter steps within which the strength of a batch is looked for, and how finely.</summary>
    private const double FarthestQuarters = 8;

    private const double Fineness = 0.02;

    public static IReadOnlyList<Drift> Of(YieldHistory history, DateOnly today, YieldSettings settings)
    {
        var steps = history
            .Steps.Where(count => count.IsTelling)
            .GroupBy(count => (count.Model, Step: count.Step.ToUpperInvariant()))
            .Select(group => Cut(history, group.Key.Model, group, count => (count.Day, count.Batch)))
            .Where(look => look.Last.Length > 0)
            .ToArray();
        var grades = history
            .Grades.Where(batch => batch.Counts.Values.Sum() > 0)
            .GroupBy(batch => batch.Model)
            .Select(group => Cut(history, group.Key, group, batch => (batch.Day, batch.Batch)))
            .Where(look => look.Last.Length > 0)
            .ToArray();
        var looks = steps.Length + grades.Length;
        if (looks == 0)
        {
            return [];
        }

        var before = YieldEstimates.From(
            history with
            {
                Steps = [.. history.Steps.Except(steps.SelectMany(look => look.Last))],
                Grades = [.. history.Grades.Except(grades.SelectMany(look => look.Last))],
            },
            today,
            settings
        );
        return
        [
            .. steps
                .Select(Drift (look) => OfStep(before, look, looks))
                .Concat(grades.Select(look => OfStrength(before, look, looks)))
                .Where(drift => drift.Chance < MostChance)
                .OrderBy(drift => drift.Chance),
        ];
    }

    /// <summary>The last batches, or none where too few came before them since the last marker.</summary>
    private static Look<T> Cut<T>(
        YieldHistory history,
        string model,
        IEnumerable<T> rows,
        Func<T, (DateOnly Day, string Batch)> order
    )
    {
        var marker = history.LastMarker(model) ?? DateOnly.MinValue;
        var since = rows.Where(row => order(row).Day >= marker).OrderBy(order).ToArray();
        return since.Length >= LeastBefore + Recent
            ? new Look<T>(since[^Recent..], since.Length - Recent)
            : new Look<T>([], since.Length);
    }

    private static Drift.OfStep OfStep(YieldEstimates before, Look<StepCount> look, int looks)
    {
        var (model, step) = (look.Last[0].Model, look.Last[0].Step);
        var totals = before.Totals(model, step, look.Last.Select(count => (count.CaneLot ?? "", count.In)));
        var kept = look.Last.Sum(count => count.Out);
        return new Drift.OfStep(
            model,
            step,
            look.Last.Length,
            look.Before,
            look.Last.Sum(count => count.In),
            kept,
            Walk.Usual(totals),
            Anywhere(totals.Take(kept + 1).Sum(), totals.Skip(kept).Sum(), looks)
        );
    }

    private static Drift.OfStrength OfStrength(YieldEstimates before, Look<BatchGrades> look, int looks)
    {
        var reeds = look.Last.Sum(batch => batch.Counts.Values.Sum());
        var quarters = look.Last.Average(batch => MeanQuarters(batch));

        // Batches of several lots are taken for one lot that nothing is known of: that expects more of the scatter.
        var lots = look.Last.Select(batch => batch.CaneLot).Distinct().ToArray();
        var lot = lots.Length == 1 ? lots[0] ?? "" : "";
        var atMost = before.MeanOffset(look.Last[0].Model, lot, look.Last.Length, reeds);
        return new Drift.OfStrength(
            look.Last[0].Model,
            look.Last.Length,
            look.Before,
            reeds,
            quarters,
            (Quantile(atMost, TailEachSide), Quantile(atMost, 1 - TailEachSide)),
            Anywhere(atMost(quarters), 1 - atMost(quarters), looks)
        );
    }

    private static double MeanQuarters(BatchGrades batch) =>
        batch.Counts.Sum(grade => (double)grade.Value * (grade.Key.Quarters - batch.Aim.Quarters))
        / batch.Counts.Values.Sum();

    private static double Anywhere(double below, double above, int looks) =>
        1 - Math.Pow(1 - Math.Clamp(2 * Math.Min(below, above), 0, 1), looks);

    private static double Quantile(Func<double, double> atMost, double share)
    {
        var (low, high) = (-FarthestQuarters, FarthestQuarters);
        while (high - low > Fineness)
        {
            var middle = (low + high) / 2;
            (low, high) = atMost(middle) < share ? (middle, high) : (low, middle);
        }

        return high;
    }

    private sealed record Look<T>(T[] Last, int Before);
}
