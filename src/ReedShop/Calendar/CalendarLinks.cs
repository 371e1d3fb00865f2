using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Calendar;

/// <summary>A link that was just made, with the secret that is told once.</summary>
public sealed record NewLink(CalendarLink Link, string Secret);

/// <summary>Makes and ends the secret link, and keeps what its owner chooses.</summary>
public sealed class CalendarLinks(
    CalendarStore calendar,
    CalendarUpkeep upkeep,
    Replans replans,
    JournalStore journal,
    ShopClock clock
)
{
    private static readonly Refusal OthersCameFirst = new(
        RefusalKind.Busy,
        "The calendar was being brought up to date just then; try again."
    );

    /// <summary>Ends the link there was. The entries stay, so that a calendar that changes over sees the same ones.</summary>
    public async Task<Result<NewLink>> Make(bool withNights, CancellationToken cancel)
    {
        // So that the first look at the new link finds the plan.
        await replans.CatchUp(cancel);
        var link = await calendar.FindForChange(cancel);
        var secret = link.Make(clock.NowUtc);
        link.WithNights = withNights;
        journal.Write("owner", "calendar", "a new link to the plan was made; the one before, if any, has ended");
        await upkeep.Follow(link, cancel);
        return await calendar.TrySave(cancel) ? new NewLink(link, secret) : OthersCameFirst;
    }

    public async Task<Result<CalendarLink>> ChooseNights(bool withNights, CancellationToken cancel)
    {
        var link = await calendar.FindForChange(cancel);
        link.WithNights = withNights;
        link.Version++;
        return await calendar.TrySave(cancel) ? link : OthersCameFirst;
    }

    public async Task<Result<CalendarLink>> End(CancellationToken cancel)
    {
        var link = await calendar.FindForChange(cancel);
        link.End();
        journal.Write("owner", "calendar", "the link to the plan was ended");
        return await calendar.TrySave(cancel) ? link : OthersCameFirst;
    }
}
