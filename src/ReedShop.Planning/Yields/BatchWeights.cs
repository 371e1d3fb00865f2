namespace ReedShop.Planning.Yields;

/// <summary>How much a past batch counts: less with age, and less for every marker set since.</summary>
internal sealed class BatchWeights(IReadOnlyList<YieldMarker> markers, DateOnly today, YieldSettings settings)
{
    /// <summary>1 for a batch of today (or a day still to come) that no marker has made old.</summary>
    public double Of(string model, DateOnly day)
    {
        var age = Math.Max(0, today.DayNumber - day.DayNumber);
        var since = markers.Count(marker =>
            day < marker.Day && marker.Day <= today && (marker.Model is null || marker.Model == model)
        );
        return Math.Pow(0.5, age / (double)settings.HalfLifeDays) * Math.Pow(settings.BeforeMarker, since);
    }
}
