using System.Globalization;
using ReedShop.Platform;
using ReedShop.Platform.Ticks;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Reminders;

/// <summary>
/// Sends the day list once a day, from the shop's hour on: a service that slept through the hour sends it when it
/// wakes, unless the day is over. On a closed day nothing is sent; on an open day without work a line says so, because
/// silence could also be a fault.
/// </summary>
public sealed class MorningReminder(
    ShopStore shops,
    Replans replans,
    DayReader days,
    MakersLetters letters,
    ShopClock clock
) : ITick
{
    public async Task Run(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is { } shop && DueDay(shop) is { } today)
        {
            var subject = today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            if (await letters.IsDue(LetterKind.DayList, subject, cancel))
            {
                await Send(shop, today, subject, cancel);
            }
        }
    }

    /// <summary>
    /// Today, if the bench opens today and the hour has come. The hour is an instant: a time the clocks skip means the
    /// first moment after the gap, one that comes twice the first of the two.
    /// </summary>
    private DateOnly? DueDay(ShopSettings shop)
    {
        var today = clock.Today(shop.Zone);
        return shop.OpenMinutes(today) > 0 && clock.NowUtc >= ShopClock.InstantOf(today, shop.ReminderAt, shop.Zone)
            ? today
            : null;
    }

    private async Task Send(ShopSettings shop, DateOnly today, string subject, CancellationToken cancel)
    {
        await replans.CatchUp(cancel);
        var day = await days.Read(today, cancel);
        if (!day.IsRefused)
        {
            var text = DayLetter.Text(day.Value, shop.Name);
            await letters.Write(LetterKind.DayList, subject, shop, DayLetter.Title(day.Value), text, cancel);
        }
    }
}
