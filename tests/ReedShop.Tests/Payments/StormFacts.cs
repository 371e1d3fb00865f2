using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Payments;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Payments;

/// <summary>Stripe promises neither order nor number of its words.</summary>
public sealed class StormFacts
{
    private const int Orders = 15;
    private const int Events = 10_000;
    private const int Senders = 8;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Ten_thousand_words_in_any_order_a_third_of_them_twice_end_in_the_same_ledger_as_in_order()
    {
        await using var calm = await PayingShop.Open();
        await using var storm = await PayingShop.Open();
        var (calmOrders, stormOrders) = (await Take(calm), await Take(storm));

        // In order: each thing happens at Stripe, is told, and is worked before the next.
        foreach (var story in Enumerable.Range(0, Orders).Select(n => Story(calm, calmOrders[n], n)))
        {
            foreach (var chapter in story)
            {
                await Store(calm, chapter());
                await calm.Shop.Tick("work-stripe-events");
            }
        }

        // Out of order: all has happened before the first word of it comes, from many senders at once.
        var words = Enumerable
            .Range(0, Orders)
            .SelectMany(n => Story(storm, stormOrders[n], n))
            .SelectMany(chapter => chapter())
            .ToArray();
        Assert.Equal(Events, words.Length);
        var random = new Random(20270301);
        (string Kind, object Thing, string Id)[] told = [.. words, .. words.Where(_ => random.NextDouble() < 0.3)];
        random.Shuffle(told);
        await Task.WhenAll(told.Chunk((told.Length / Senders) + 1).Select(part => Send(storm, part)));
        await storm.Shop.Tick("work-stripe-events");

        Assert.Equal(await Ledger(calm, calmOrders), await Ledger(storm, stormOrders));
        Assert.Equal(Events, await Stored(storm));
        Assert.Empty(await storm.Shop.Within(services => Due(services)));
    }

    [Fact]
    public async Task The_same_word_told_by_many_at_once_is_stored_once_and_settled_once()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        var session = PayingShop.SessionOf(order);
        paying.Stripe.Pay(session);
        var body = PayingShop.Event("checkout.session.completed", paying.Stripe.Sessions[session].Shape(), "evt_same");

        var answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(_ => paying.Post(body)));
        await Task.WhenAll(
            Enumerable
                .Range(0, 4)
                .Select(_ => paying.Shop.Tick("work-stripe-events"))
                .Append(paying.ComeBack(order))
                .Append(paying.ComeBack(order))
        );

        Assert.All(answers, answer => Assert.Equal(System.Net.HttpStatusCode.OK, answer.StatusCode));
        Assert.Equal(1, await Stored(paying));
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 0);
        Assert.Single(await paying.Letters(), kind => kind == "order-confirmed");
    }

    private static async Task<JsonElement[]> Take(PayingShop paying)
    {
        var orders = new JsonElement[Orders];
        for (var n = 0; n < Orders; n++)
        {
            orders[n] = await paying.Order(2, $"buyer{n}@example.org");
        }

        return orders;
    }

    /// <summary>What becomes of one order's money, and the words Stripe has for it; each order tells the same number.</summary>
    private static IEnumerable<Func<(string Kind, object Thing, string Id)[]>> Story(
        PayingShop paying,
        JsonElement order,
        int n
    )
    {
        var (stripe, session) = (paying.Stripe, paying.Stripe.Sessions[PayingShop.SessionOf(order)]);
        yield return () =>
        {
            session.Status = n % 5 == 1 ? "expired" : session.Status;
            var isPaid = session.Status == "open" && stripe.Pay(session.Id);
            return [($"checkout.session.{(isPaid ? "completed" : "expired")}", session.Shape(), $"evt_{n}_end")];
        };
        if (n % 5 is 2 or 3)
        {
            yield return () =>
                [("refund.created", stripe.RefundByHand(session.PaymentId!, 200).Shape(), $"evt_{n}_back")];
        }

        if (n % 5 == 3)
        {
            yield return () =>
            {
                var refund = stripe.Refunds.Single(refund => refund.PaymentId == session.PaymentId);
                refund.Status = "failed";
                return [("refund.failed", refund.Shape(), $"evt_{n}_failed")];
            };
        }

        if (n % 5 == 4)
        {
            yield return () =>
            {
                var dispute = stripe.OpenDispute(session.PaymentId!, 700);
                dispute.Status = "lost";
                return [("charge.dispute.closed", dispute.Shape(), $"evt_{n}_lost")];
            };
        }

        yield return () => Chatter(stripe, session, n);
    }

    /// <summary>The many words between: some repeat what is known, some are about nothing the shop minds.</summary>
    private static (string Kind, object Thing, string Id)[] Chatter(StripeStandIn stripe, StandInSession session, int n)
    {
        var said =
            1
            + (
                n % 5 is 2 or 4 ? 1
                : n % 5 == 3 ? 2
                : 0
            );
        var all = (Events / Orders) + (n < Events % Orders ? 1 : 0);
        var refund = stripe.Refunds.Find(refund => refund.PaymentId == session.PaymentId);
        return
        [
            .. Enumerable
                .Range(0, all - said)
                .Select(k =>
                    (k % 3, refund) switch
                    {
                        (0, { } back) => ("refund.updated", back.Shape(), $"evt_{n}_{k}"),
                        (1, _) => (
                            $"checkout.session.{(session.PaymentId is null ? "expired" : "completed")}",
                            session.Shape(),
                            $"evt_{n}_{k}"
                        ),
                        _ => ("payment_intent.succeeded", new { id = session.PaymentId ?? "pi_0" }, $"evt_{n}_{k}"),
                    }
                ),
        ];
    }

    private static Task Store(PayingShop paying, IEnumerable<(string Kind, object Thing, string Id)> words) =>
        paying.Shop.Within(async services =>
        {
            var now = services.GetRequiredService<ShopClock>().NowUtc;
            var db = services.GetRequiredService<ShopDb>();
            db.AddRange(words.Select(word => Row(word, now)));
            await db.SaveChangesAsync(Cancel);
        });

    private static InboxMessage Row((string Kind, object Thing, string Id) word, DateTime now) =>
        new()
        {
            Source = Webhooks.Source,
            EventId = word.Id,
            Kind = word.Kind,
            About = StripeEvents.AboutOf(word.Kind, JsonSerializer.SerializeToElement(word.Thing)) ?? "",
            ArrivedUtc = now,
            NextTryUtc = now,
        };

    /// <summary>One in five comes through the webhook, signed; the others by the door behind it, to save time.</summary>
    private static async Task Send(PayingShop paying, IEnumerable<(string Kind, object Thing, string Id)> words)
    {
        foreach (var (index, word) in words.Index())
        {
            if (index % 5 == 0)
            {
                using var answer = await paying.Tell(word.Kind, word.Thing, word.Id);
                Assert.Equal(System.Net.HttpStatusCode.OK, answer.StatusCode);
            }
            else
            {
                await paying.Shop.Within(services =>
                    services
                        .GetRequiredService<InboxStore>()
                        .Take(Row(word, services.GetRequiredService<ShopClock>().NowUtc), Cancel)
                );
            }
        }
    }

    private static async Task<string[]> Ledger(PayingShop paying, JsonElement[] orders)
    {
        var sums = new List<string>();
        var numbers = new List<(string Kind, int Number)>();
        foreach (var order in orders)
        {
            var money = await paying.Money(order);
            Assert.True(money.GetProperty("balances").GetBoolean());
            string[] names = ["captured", "refunded", "goodwill", "waiting", "invoiced", "credited"];
            var amounts = names.Select(name => $"{name} {PayingShop.Amount(money, name)}");
            sums.Add($"{await paying.Status(order)}: {string.Join(", ", amounts)}");
            numbers.AddRange(
                money
                    .GetProperty("papers")
                    .EnumerateArray()
                    .Select(p => (p.GetProperty("kind").GetString()!, p.GetProperty("number").GetInt32()))
            );
        }

        foreach (var kind in numbers.GroupBy(paper => paper.Kind))
        {
            Assert.Equal(Enumerable.Range(1, kind.Count()), kind.Select(paper => paper.Number).Order());
        }

        return [.. sums];
    }

    private static Task<int> Stored(PayingShop paying) =>
        paying.Shop.Within(services =>
            Microsoft.EntityFrameworkCore.EntityFrameworkQueryableExtensions.CountAsync(
                services.GetRequiredService<ShopDb>().Set<InboxMessage>(),
                Cancel
            )
        );

    private static Task<List<InboxMessage>> Due(IServiceProvider services) =>
        services.GetRequiredService<InboxStore>().Due(Webhooks.Source, 1, Cancel);
}
