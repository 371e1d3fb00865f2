using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Messages;

public sealed class KilledSenderFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>
    /// The mail server has a letter, and the program is killed before it could write that down. It cannot know, so the
    /// letter goes out again, and by its Message-ID the reader's program knows it for the same.
    /// </summary>
    [Fact]
    public async Task A_letter_on_its_way_when_the_program_is_killed_comes_again_as_the_same_letter()
    {
        await using var mail = new MailServer();
        await using var shop = await ShopHost.Start(TimeProvider.System.GetUtcNow(), mail.Settings);
        await shop.Within(services =>
        {
            var outbox = services.GetRequiredService<OutboxStore>();
            outbox.Add("shipped", "order-1", "buyer@example.org", "Thank you", "Ten of 3½ are on their way.");
            return outbox.Save(Cancel);
        });

        await shop.Stop();
        var (started, killed) = (new TaskCompletionSource<ShopProcess>(), new TaskCompletionSource());
        mail.Took = async () =>
        {
            mail.Took = null;
            (await started.Task).Kill();
            killed.SetResult();
        };
        await using (var process = await ShopProcess.Start(shop.Folder, mail.Settings, Cancel))
        {
            started.SetResult(process);
            await killed.Task.WaitAsync(TimeSpan.FromMinutes(2), Cancel);
        }

        await shop.Restart();
        shop.Time.Advance(TimeSpan.FromMinutes(30));
        await shop.Tick("deliver-messages");
        await shop.Tick("deliver-messages");

        Assert.Equal(2, mail.Taken.Count);
        Assert.Single(mail.Taken.Select(letter => letter.MessageId).Distinct());
        Assert.Empty((await shop.GetJson("/api/messages")).EnumerateArray());
    }
}
