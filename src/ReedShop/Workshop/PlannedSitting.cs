using System.Globalization;

namespace ReedShop.Workshop;

/// <summary>The day of one sitting of the plan.</summary>
public sealed class PlannedSitting
{
    /// <summary>Batch, last step and part, such as "1f0c-7-1": the last step stays the same while a sitting is half done.</summary>
    public required string Id { get; init; }

    public required string BatchId { get; init; }

    public int FirstStep { get; set; }

    public required int LastStep { get; init; }

    /// <summary>From 1; more than one where a sitting is longer than an evening and is cut.</summary>
    public required int Part { get; init; }

    public int Blanks { get; set; }

    public int Minutes { get; set; }

    public DateOnly Day { get; set; }

    /// <summary>The name of the helper whose sitting it is; null where it is the maker's.</summary>
    public string? Helper { get; set; }

    /// <summary>The maker chose this day.</summary>
    public bool Pinned { get; set; }

    public static string IdOf(string batchId, int lastStep, int part) =>
        string.Create(CultureInfo.InvariantCulture, $"{batchId}-{lastStep}-{part}");

    /// <summary>The same sitting for another tray.</summary>
    public PlannedSitting For(string trayId) =>
        new()
        {
            Id = IdOf(trayId, LastStep, Part),
            BatchId = trayId,
            FirstStep = FirstStep,
            LastStep = LastStep,
            Part = Part,
            Blanks = Blanks,
            Minutes = Minutes,
            Day = Day,
            Helper = Helper,
            Pinned = Pinned,
        };
}

/// <summary>What the stored plan was made from: a plan whose key differs from today's facts is outdated.</summary>
public sealed class PlanKey
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    public long FactsVersion { get; set; }

    public DateOnly Day { get; set; }
}
