namespace ReedShop.Lab.Trials;

internal enum ShockKind
{
    /// <summary>The cane in the shop gives way to a bad lot; cane bought later is as before.</summary>
    Cane,

    /// <summary>From one day on twice as many buyers ask.</summary>
    Demand,

    /// <summary>The maker lies ill for a fortnight; the program sees only that evenings are lost.</summary>
    Illness,

    /// <summary>The same, and the program is told on the first morning.</summary>
    ToldIllness,
}

/// <summary>What sets in one morning, and nobody knew of it before. How hard it is, is a choice of ours.</summary>
/// <param name="Day">Of the trial, from 0.</param>
internal sealed record Shock(ShockKind Kind, int Day)
{
    public const int IllDays = 14;

    /// <summary>By which the odds that a blank of a bad lot survives a step are multiplied.</summary>
    public const double BadLotOdds = 0.5;

    /// <summary>From which day on twice as many buyers ask, if ever.</summary>
    public int? DoubledFrom => Kind == ShockKind.Demand ? Day : null;

    public string Name =>
        Kind switch
        {
            ShockKind.Cane => "a bad lot of cane",
            ShockKind.Demand => "twice the demand",
            ShockKind.Illness => "a fortnight's illness",
            _ => "a fortnight's illness, told on the first morning",
        };

    public bool IsIll(int day) =>
        Kind is ShockKind.Illness or ShockKind.ToldIllness && day >= Day && day < Day + IllDays;

    /// <summary>What the shop itself finds on the first morning.</summary>
    public void SetIn(Book book, Nature nature)
    {
        if (Kind == ShockKind.Cane)
        {
            book.Cane.ForEach(lot => lot.BlanksLeft = 0);
            foreach (var model in book.Premises.Models)
            {
                nature.BadLots.Add(book.BuyLot(model.Name).Name);
            }
        }
        else if (Kind == ShockKind.ToldIllness)
        {
            book.Premises = book.Premises.Closed(book.Today, IllDays);
            book.HasNews = true;
        }
    }
}
