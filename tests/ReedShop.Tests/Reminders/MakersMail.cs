using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Reminders;

/// <summary>What a shop has written, and when it goes out.</summary>
internal static class MakersMail
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>The clock of a shop in Lisbon, in March 2027, when it keeps UTC.</summary>
    public static void SetTime(ShopHost shop, int day, int hour, int minute = 0) =>
        shop.Time.SetUtcNow(new DateTimeOffset(2027, 3, day, hour, minute, 0, TimeSpan.Zero));

    /// <summary>Messages of a kind that were not delivered yet, oldest first.</summary>
    public static async Task<OutboxMessage[]> Waiting(ShopHost shop, string kind) =>
        [
            .. (await shop.Within(services => services.GetRequiredService<OutboxStore>().Undelivered(Cancel))).Where(
                message => message.Kind == kind
            ),
        ];

    public static Task Write(ShopHost shop, string kind, string subject, bool asked = false, string? stopLink = null) =>
        shop.Within(services =>
        {
            var outbox = services.GetRequiredService<OutboxStore>();
            outbox.Add(kind, subject, "buyer@example.org", "Thank you", "Ten of 3½ are on their way.", asked, stopLink);
            return outbox.Save(Cancel);
        });

    /// <summary>Letters that were laid into the data folder, by kind.</summary>
    public static string[] Sent(ShopHost shop) =>
        Directory.Exists(Path.Combine(shop.Folder, "mail"))
            ?
            [
                .. Directory
                    .GetFiles(Path.Combine(shop.Folder, "mail"), "*.eml")
                    .Order(StringComparer.Ordinal)
                    .Select(file => MimeKit.MimeMessage.Load(file).MessageId!.Split('.')[0]),
            ]
            : [];

    public static Task<HttpResponseMessage> Choose(
        Visitor owner,
        string quietFrom = "22:00",
        string quietUntil = "07:00",
        string caneWeeks = "6",
        params IEnumerable<string> wanted
    ) =>
        owner.Post(
            "/bench/letters",
            [
                ("quietFrom", quietFrom),
                ("quietUntil", quietUntil),
                ("caneWeeks", caneWeeks),
                .. wanted.Select(kind => ("wanted", kind)),
            ]
        );
}
