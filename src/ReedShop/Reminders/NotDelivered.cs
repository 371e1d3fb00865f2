using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;
using ReedShop.Shop;

namespace ReedShop.Reminders;

/// <summary>
/// Tells the maker, once for each, of letters to others that were given up. Nothing is told while nothing gets through at
/// all: such a letter would only join the others.
/// </summary>
public sealed class NotDelivered(ShopStore shops, OutboxStore outbox, MakersLetters letters, PublicAddress address)
    : ITick
{
    public async Task Run(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return;
        }

        foreach (var message in (await outbox.GivenUp(cancel)).Where(m => m.To != shop.OwnerEmail))
        {
            var subject = $"message {message.Id}";
            if (await letters.IsDue(LetterKind.NotDelivered, subject, cancel))
            {
                var title = $"Not delivered to {message.To}: {message.Title}";
                await letters.Write(LetterKind.NotDelivered, subject, shop, title, Text(message), cancel);
            }
        }
    }

    private string Text(OutboxMessage message) =>
        $"“{message.Title}” did not reach {message.To} in {Words.Number(message.Attempts)} tries. What was said last:\n"
        + $"  {message.LastError}\n\nPerhaps the address is wrong. Look at it, and send it again, here:\n{address.Of("/bench/messages")}\n";
}
