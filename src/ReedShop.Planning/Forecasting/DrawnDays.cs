using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>The nights and evenings of one draw: which nights are damp, and what every evening offers.</summary>
public sealed class DrawnDays
{
    // Addresses of what happens to the whole shop.
    private static readonly ulong Night = Chances.Address("night");
    private static readonly ulong Evening = Chances.Address("evening");
    private static readonly ulong Away = Chances.Address("away");

    private readonly int[] planned;
    private readonly double[] damp;
    private readonly BenchHazards hazards;

    public DrawnDays(ShopState state)
    {
        hazards = state.Hazards;
        planned = [.. state.Work.OpenMinutes];
        damp = [.. planned.Select((_, day) => hazards.Damp(state.Today.AddDays(day)))];
        OpenMinutes = new int[planned.Length];
        DampNights = new bool[planned.Length];
    }

    public int[] OpenMinutes { get; }

    /// <summary>By the day before the night.</summary>
    public bool[] DampNights { get; }

    /// <param name="dry">Every night leaves the blanks dry; the evenings are as they would be.</param>
    public void Draw(Chances chances, bool dry = false)
    {
        bool? wasDamp = null;
        var back = 0;
        for (var day = 0; day < planned.Length; day++)
        {
            wasDamp = chances.Of(Night, day) < Chance(damp[day], hazards.Persistence, wasDamp);
            DampNights[day] = wasDamp.Value && !dry;
            if (day >= back && chances.Of(Away, day) < hazards.AwayPerDay)
            {
                back = day + DaysAway(chances.Of(Away, -1 - day));
            }

            OpenMinutes[day] = day < back ? 0 : (int)(planned[day] * Offered(chances.Of(Evening, day)));
        }
    }

    /// <summary>From half as long to half as long again as usual, each as likely.</summary>
    private int DaysAway(double luck) => (int)Math.Round(hazards.AwayDays * (0.5 + luck));

    /// <summary>What follows on its like comes more often: a chain in which each has its own chance over all.</summary>
    private static double Chance(double alone, double persistence, bool? cameBefore) =>
        cameBefore switch
        {
            null => alone,
            true => alone + (persistence * (1 - alone)),
            false => alone * (1 - persistence),
        };

    private double Offered(double luck) =>
        luck < hazards.LostEvening ? 0
        : luck < hazards.LostEvening + ((1 - hazards.LostEvening) * hazards.SlowEvening) ? hazards.SlowShare
        : 1;
}
