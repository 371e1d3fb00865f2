using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Reminders;

/// <summary>Writes letters to the maker, each once, of the kinds that are wanted.</summary>
public sealed class MakersLetters(LetterStore letters, OutboxStore outbox, PublicAddress address)
{
    public async Task<bool> IsDue(LetterKind kind, string subject, CancellationToken cancel) =>
        (await letters.Read(cancel)).Wants(kind) && !await outbox.Has(kind.Name, subject, cancel);

    /// <summary>Written at once. Where the same job runs twice at the same time, one of them writes.</summary>
    public async Task Write(
        LetterKind kind,
        string subject,
        ShopSettings shop,
        string title,
        string text,
        CancellationToken cancel
    )
    {
        var link = kind.IsAboutOrder ? null : await StopLink(kind, cancel);
        var foot = link is null ? "" : $"\n-- \nNo more letters of this kind:\n{link}\n";
        outbox.Add(kind.Name, subject, shop.OwnerEmail, title, text + foot, kind.Asked, link);
        await outbox.TrySave(cancel);
    }

    private async Task<string> StopLink(LetterKind kind, CancellationToken cancel) =>
        address.Of(StopPages.AddressOf((await letters.ForChange(cancel)).Secret, kind));
}
