namespace ReedShop.Lab.Trials;

/// <summary>How the bench fares on each day of a shop: damp nights, evenings lost or slow.</summary>
internal sealed class Days
{
    private const int WeekDays = 7;
    private const int YearDays = 365;

    private readonly bool[] damp;
    private readonly double[] offered;

    /// <param name="count">Days from the first one on.</param>
    public Days(ulong seed, int count, Hardship hardship, Shock? shock)
    {
        damp = Damp(seed, count, hardship);
        offered = Offered(seed, count, hardship);
        for (var day = 0; day < count; day++)
        {
            offered[day] = shock?.IsIll(day) == true ? 0 : offered[day];
        }
    }

    /// <summary>Whether blanks that had to dry in the night after a day are still damp in the morning.</summary>
    public bool IsDamp(int night) => damp[night];

    /// <summary>The share of its open minutes that a day offers in the end.</summary>
    public double Offers(int day) => offered[day];

    /// <summary>Two kinds of weather that persist; wet spells begin more often in some months.</summary>
    private static bool[] Damp(ulong seed, int count, Hardship hardship)
    {
        var stays = hardship.WetStays.In(Draws.At(seed, What.Weather, 0, 1));
        var begins = hardship.WetBegins.In(Draws.At(seed, What.Weather, 0, 2));
        var wettest = Draws.At(seed, What.Weather, 0, 3).FirstBetween(0, 1);
        var nights = new bool[count];
        for (var day = 1; day < count; day++)
        {
            var season = 1 + (0.8 * Math.Cos(2 * Math.PI * (((double)day / YearDays) - wettest)));
            var chance = nights[day - 1] ? stays : begins * season;
            nights[day] = Draws.At(seed, What.Weather, (ulong)day).FirstBetween(0, 1) <= chance;
        }

        return nights;
    }

    private static double[] Offered(ulong seed, int count, Hardship hardship)
    {
        var lost = hardship.Lost.In(Draws.At(seed, What.Evening, 0, 1));
        var slow = hardship.Slow.In(Draws.At(seed, What.Evening, 0, 2));
        var shares = new double[count];
        for (var day = 0; day < count; day++)
        {
            var dice = Draws.At(seed, What.Evening, (ulong)day);
            shares[day] =
                dice.Happens(lost) ? 0
                : dice.Happens(slow) ? dice.Between(0.6, 0.9)
                : 1;
        }

        LoseWeeks(seed, shares, hardship.Illnesses.In(Draws.At(seed, What.Illness)));
        return shares;
    }

    /// <summary>Now and then the maker lies ill for a week.</summary>
    private static void LoseWeeks(ulong seed, double[] shares, double illnesses)
    {
        for (var day = 0; day < shares.Length; day++)
        {
            if (Draws.At(seed, What.Illness, (ulong)day).FirstBetween(0, 1) <= illnesses / YearDays)
            {
                Array.Clear(shares, day, Math.Min(WeekDays, shares.Length - day));
            }
        }
    }
}
