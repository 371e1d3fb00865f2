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
    private const int LiveEvents = 1_500;
    private const int Senders = 8;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Ten_thousand_words_in_any_order_a_third_of_them_twice_end_in_the_same_ledger_as_in_order()
    {
        await using var calm = await PayingShop.Open();
        await using var storm = await PayingShop.Open();
        var (calmOrders, stormOrders) = (await Take(calm), await Take(storm));

        await InOrder(calm, calmOrders, Events);

        // Out of order: all has happened before the first word of it comes, from many senders at once.
        var words = Enumerable
            .Range(0, Orders)
            .SelectMany(n => Story(storm, stormOrders[n], n, Events))
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

    /// <summary>
    /// What the shop has read at Stripe is outdated when the next word comes; the first of some things is heard last of all.
    /// </summary>
    [Fact]
    public async Task Words_that_come_while_things_still_happen_and_some_at_the_very_end_make_the_same_ledger()
    {
        await using var calm = await PayingShop.Open();
        await using var live = await PayingShop.Open();
        var (calmOrders, liveOrders) = (await Take(calm), await Take(live));
        await InOrder(calm, calmOrders, LiveEvents);

        var random = new Random(20270302);
        var stories = Enumerable
            .Range(0, Orders)
            .Select(n => new Queue<Func<(string Kind, object Thing, string Id)[]>>(
                Story(live, liveOrders[n], n, LiveEvents)
            ))
            .ToList();
        var (onTheWay, heldBack) = (
            new List<(string Kind, object Thing, string Id)>(),
            new List<(string Kind, object Thing, string Id)>()
        );
        while (stories.Count > 0)
        {
            var story = stories[random.Next(stories.Count)];
            foreach (var word in story.Dequeue()())
            {
                var isFirst = word.Id.EndsWith("_end", StringComparison.Ordinal);
                var queue = random.NextDouble() < (isFirst ? 0.7 : 0.2) ? heldBack : onTheWay;
                queue.AddRange(Enumerable.Repeat(word, random.NextDouble() < 0.3 ? 2 : 1));
            }

            stories.RemoveAll(told => told.Count == 0);
            await Deliver(live, onTheWay, onTheWay.Count / 2, random);
        }

        Assert.NotEmpty(onTheWay);
        Assert.NotEmpty(heldBack);
        await Deliver(live, onTheWay, onTheWay.Count, random);
        await Deliver(live, heldBack, heldBack.Count, random);

        Assert.Equal(await Ledger(calm, calmOrders), await Ledger(live, liveOrders));
        Assert.Equal(LiveEvents, await Stored(live));
        Assert.Empty(await live.Shop.Within(services => Due(services)));
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

    /// <summary>Each thing happens at Stripe, is told, and is worked before the next.</summary>
    private static async Task InOrder(PayingShop paying, JsonElement[] orders, int events)
    {
        foreach (var chapter in Enumerable.Range(0, Orders).SelectMany(n => Story(paying, orders[n], n, events)))
        {
            await Store(paying, chapter());
            await paying.Shop.Tick("work-stripe-events");
        }
    }

    /// <summary>Some of the words that are on their way arrive, whichever, and are worked.</summary>
    private static async Task Deliver(
        PayingShop paying,
        List<(string Kind, object Thing, string Id)> onTheWay,
        int count,
        Random random
    )
    {
        random.Shuffle(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(onTheWay));
        await Send(paying, onTheWay[..count]);
        onTheWay.RemoveRange(0, count);
        await paying.Shop.Tick("work-stripe-events");
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
        int n,
        int events
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
                [("charge.dispute.created", stripe.OpenDispute(session.PaymentId!, 700).Shape(), $"evt_{n}_disputed")];
            yield return () =>
            {
                var dispute = stripe.Disputes.Values.Single(dispute => dispute.PaymentId == session.PaymentId);
                dispute.Status = "lost";
                return [("charge.dispute.closed", dispute.Shape(), $"evt_{n}_lost")];
            };
        }

        yield return () => Chatter(stripe, session, n, events);
    }

    /// <summary>
    /// The many words between: some repeat what is known, some are about nothing the shop minds. Every other order hears of
    /// its refund no more than it must.
    /// </summary>
    private static (string Kind, object Thing, string Id)[] Chatter(
        StripeStandIn stripe,
        StandInSession session,
        int n,
        int events
    )
    {
        var said =
            1
            + (
                n % 5 == 2 ? 1
                : n % 5 is 3 or 4 ? 2
                : 0
            );
        var all = (events / Orders) + (n < events % Orders ? 1 : 0);
        var refund = n % 2 == 0 ? stripe.Refunds.Find(refund => refund.PaymentId == session.PaymentId) : null;
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
