using System.Globalization;
using System.Text;
using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Demo;

/// <summary>
/// About eighteen months of past batches as two files in the format of the import. All of it is invented: drawn by dice
/// from the truth of <see cref="DemoCane"/> and the shares below, so that the same seed and day give the same text.
/// </summary>
public sealed class DemoHistory
{
    public const int Batches = 72;
    private const int Days = 548;
    private const int LongestBatchDays = 26;
    private const int MostRestDays = 11;
    private const double RedoShare = 0.12;
    private const double BatchScatter = 0.02;

    // The demo shop sorts into half steps: two quarters.
    private const int QuartersBetweenGrades = 2;
    private const double QuartersBetweenBatches = 0.7;
    private const double QuartersWithinBatch = 0.7;

    // In quarter steps; the demo's maker sorts into half steps.
    private const double BatchShift = 0.5;
    private const double ReedScatter = 0.8;

    private static readonly ReadyRoute[] Turns =
    [
        ReadyRoutes.Clarinet,
        ReadyRoutes.AltoSaxophone,
        ReadyRoutes.Clarinet,
        ReadyRoutes.BassClarinet,
        ReadyRoutes.AltoSaxophone,
        ReadyRoutes.Clarinet,
    ];

    private static readonly Strength[] Aims = [.. new[] { 12, 14, 12, 10, 14, 16 }.Select(Strength.OfQuarters)];

    private static readonly Dictionary<string, double> Shares = new(StringComparer.Ordinal)
    {
        ["fine flatten"] = 0.95,
        ["sides"] = 0.98,
        ["profile"] = 0.92,
        ["clip"] = 0.97,
        ["play in"] = 0.95,
        ["play again"] = 0.98,
        ["grade"] = 0.98,
    };

    private readonly StringBuilder steps = new("batch,model,aim,caneLot,date,step,in,out,redo\n");
    private readonly StringBuilder grades = new("batch,strength,count\n");
    private Dice dice;

    private DemoHistory(ulong seed, DateOnly lastDay)
    {
        dice = new Dice(seed);
        var first = lastDay.AddDays(-Days);
        for (var number = 0; number < Batches; number++)
        {
            Walk(number, first.AddDays((Days - LongestBatchDays) * number / (Batches - 1)));
        }
    }

    /// <summary>The file of steps, as it is posted to /api/history/steps.</summary>
    public string Steps => steps.ToString();

    /// <summary>The file of grades, as it is posted to /api/history/grades.</summary>
    public string Grades => grades.ToString();

    /// <param name="lastDay">No row is dated later.</param>
    public static DemoHistory Of(ulong seed, DateOnly lastDay) => new(seed, lastDay);

    private void Walk(int number, DateOnly start)
    {
        var (model, route) = (Turns[number % Turns.Length].Model, Turns[number % Turns.Length].Route);
        var batch = string.Create(CultureInfo.InvariantCulture, $"demo {number + 1:00}");
        var aim = Aims[dice.Below(Aims.Length)];

        // The second lot comes into use little by little, while the first runs out.
        var lot = DemoCane.Of(model)[dice.Below(Batches) < number ? 1 : 0];
        var kindness = lot.Kindness + (BatchScatter * Scatter());
        var blanks = 12 + dice.Below(9);
        var day = start;
        foreach (var sitting in route.Sittings(1, route.Steps.Count))
        {
            day = BenchDay(
                sitting.FirstStep == route.FirstFinishingStep ? day.AddDays(dice.Below(MostRestDays + 1)) : day
            );
            foreach (var step in sitting.Steps.Where(step => step.Check != Check.None))
            {
                blanks = Count(
                    step,
                    blanks,
                    kindness,
                    $"{batch},{model},{aim.Value},{lot.Key},{day:yyyy-MM-dd},{step.Name}"
                );
            }

            day = day.AddDays(Math.Max(1, sitting.NightsAfter) + dice.Below(2));
        }

        Grade(batch, aim, blanks, lot.QuartersHarder + (BatchShift * Scatter()));
    }

    /// <summary>Writes one row and tells how many are left.</summary>
    private int Count(Step step, int blanks, double kindness, string place)
    {
        var (left, again) = (0, 0);
        for (var blank = 0; blank < blanks; blank++)
        {
            again += step.RedoFrom is not null && dice.Share() <= RedoShare ? 1 : 0;
            left += dice.Share() <= Shares[step.Name] + kindness ? 1 : 0;
        }

        steps.Append(CultureInfo.InvariantCulture, $"{place},{blanks},{left},{again}\n");
        return left;
    }

    /// <summary>A whole batch comes out soft or hard, and its reeds scatter around that.</summary>
    private void Grade(string batch, Strength aim, int reeds, double batchShift)
    {
        var quarters = new int[reeds];
        for (var reed = 0; reed < reeds; reed++)
        {
            var stiffness = aim.Quarters + batchShift + (QuartersWithinBatch * Scatter());
            var sorted = QuartersBetweenGrades * (int)Math.Round(stiffness / QuartersBetweenGrades);
            quarters[reed] = Math.Clamp(sorted, Strength.LeastQuarters, Strength.MostQuarters);
        }

        foreach (var strength in quarters.GroupBy(at => at).OrderBy(group => group.Key))
        {
            var value = Strength.OfQuarters(strength.Key).Value;
            grades.Append(CultureInfo.InvariantCulture, $"{batch},{value},{strength.Count()}\n");
        }
    }

    private static DateOnly BenchDay(DateOnly day) => day.DayOfWeek == DayOfWeek.Sunday ? day.AddDays(1) : day;

    /// <summary>About standard normal: a sum of twelve, because logarithms differ in their last digit from one machine to another.</summary>
    private double Scatter()
    {
        var sum = -6.0;
        for (var i = 0; i < 12; i++)
        {
            sum += dice.Share();
        }

        return sum;
    }
}
