namespace ReedShop.Planning.Bench;

/// <summary>The weekdays on which parcels leave, less the dates on which none do.</summary>
public sealed class ShipCalendar(IReadOnlySet<DayOfWeek> shipDays, IReadOnlySet<DateOnly> noParcels)
{
    /// <summary>A year ahead with no ship day means the shop has none.</summary>
    private const int FarthestLook = 366;

    public bool Leaves(DateOnly day) => shipDays.Contains(day.DayOfWeek) && !noParcels.Contains(day);

    /// <summary>
    /// The first ship day after <paramref name="day"/>. What is finished in an evening leaves on the next ship day,
    /// never on the same one.
    /// </summary>
    public DateOnly? FirstAfter(DateOnly day)
    {
        for (var ahead = 1; ahead <= FarthestLook; ahead++)
        {
            if (Leaves(day.AddDays(ahead)))
            {
                return day.AddDays(ahead);
            }
        }

        return null;
    }
}
