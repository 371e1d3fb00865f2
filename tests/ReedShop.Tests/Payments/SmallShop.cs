using ReedShop.Orders;
using ReedShop.Payments;
using ReedShop.Planning;

namespace ReedShop.Tests.Payments;

public enum Act
{
    NewOrder,
    AskAgain,
    BuyerPays,
    SessionEnds,
    Settle,
    Cancel,
    OwnerGivesBack,
    CarryRefunds,
    RefundAtStripe,
    RefundFails,
    DisputeIsLost,
    Ship,
    ShipPart,
    Begin,
    WriteInvoice,
    PayByHand,
}

/// <param name="Pick">Which order.</param>
/// <param name="Crash">The program dies after Stripe was asked and before it has saved what follows.</param>
public sealed record Step(Act Act, int Pick, int Size, bool Crash);

/// <summary>Orders with their books, and a Stripe in memory that both are held against.</summary>
public sealed class SmallShop
{
    /// <summary>Few, so that much happens to each.</summary>
    private const int MostOrders = 4;

    private const double KeptShare = 0.3;
    private const int PriceOfOne = 350;
    private const int Shipping = 455;

    private static readonly DateTime Now = new(2027, 3, 1, 9, 0, 0, DateTimeKind.Utc);

    private readonly List<OrderBooks> all = [];
    private readonly Dictionary<string, (StripeSessionState State, string? Payment)> sessions = [];
    private readonly Dictionary<string, (string Payment, StripeRefund Refund)> refunds = [];
    private readonly Dictionary<string, long> lost = [];
    private readonly Dictionary<PaperKind, int> numbers = [];
    private int names;

    /// <param name="shipping">Null where it is a part of the reeds' price.</param>
    /// <param name="off">What a voucher takes off the reeds.</param>
    public static Order NewOrder(
        int number,
        int reeds,
        bool byCard = true,
        long? shipping = null,
        long off = 0,
        string currency = "EUR"
    ) =>
        new()
        {
            Id = $"order{number}",
            Number = number,
            QuoteId = $"quote{number}",
            Stage = byCard ? OrderStage.AwaitingPayment : OrderStage.Accepted,
            BuyerName = "Ana Example",
            BuyerEmail = "ana@example.org",
            Address = new PostalAddress("1 Quay", "Harbour", "1000-001", "PT"),
            Lines =
            [
                new OrderLine
                {
                    Position = 1,
                    Model = "clarinet",
                    Strength = Strength.OfQuarters(14),
                    Quantity = reeds,
                    UnitPriceMinor = PriceOfOne,
                },
            ],
            PaysBeforeShipping = byCard,
            PriceMinor = (reeds * PriceOfOne) - off + (shipping ?? 0),
            ShippingMinor = shipping,
            DiscountMinor = off,
            Voucher = off > 0 ? "HARBOUR" : null,
            Currency = currency,
            AcceptedUtc = Now,
            ShipBy = new DateOnly(2027, 3, 8),
            FirstShipBy = new DateOnly(2027, 3, 8),
            FirstChance = 0.9,
            FinishBy = new DateOnly(2027, 3, 7),
            Confidence = 0.9,
            Chance = 0.9,
        };

    public void Do(Step step)
    {
        if (all.Count == 0 || (step.Act == Act.NewOrder && all.Count < MostOrders))
        {
            Open(step.Size);
            return;
        }

        var books = all[step.Pick % all.Count];
        switch (step.Act)
        {
            case Act.AskAgain when books.Order.Stage == OrderStage.AwaitingPayment:
                Ask(books);
                break;
            case Act.BuyerPays:
                EndAtStripe(books, StripeSessionState.Paid);
                break;
            case Act.SessionEnds:
                EndAtStripe(books, StripeSessionState.Expired);
                break;
            case Act.Settle:
                Settle(books, step);
                break;
            case Act.Cancel:
                Cancel(books, step);
                break;
            case Act.OwnerGivesBack when books.Ledger.Refundable > 0:
                var isShipped = books.Order.Stage == OrderStage.Shipped;
                books.AskBack(
                    Math.Min(step.Size * 50, books.Ledger.Refundable),
                    isShipped ? RefundReason.Goodwill : RefundReason.Owner
                );
                break;
            case Act.CarryRefunds:
                Carry(books, step.Crash);
                break;
            case Act.RefundAtStripe or Act.RefundFails or Act.DisputeIsLost:
                AtStripe(books, step);
                break;
            case Act.Ship when OrderMoves.To(OrderMove.StartBench, books.Order.Stage) is not null:
                books.Order.Stage = OrderStage.Shipped;
                break;
            case Act.ShipPart when OrderMoves.To(OrderMove.ShipPart, books.Order.Stage) is not null:
                SendOne(books.Order);
                break;
            case Act.WriteInvoice when books.Order.Stage != OrderStage.Cancelled:
                books.Invoice();
                break;
            case Act.PayByHand when !books.Order.PaysBeforeShipping && books.Order.PaidUtc is null && books.ToPay > 0:
                books.Take(PaymentWay.ByHand, books.ToPay, null);
                break;
            case Act.Begin:
                books.Order.BegunOn ??= books.Order.ShipBy;
                break;
        }
    }

    private static void SendOne(Order order)
    {
        if (order.Parcels.Count + 1 < order.Lines[0].Quantity)
        {
            var reed = new SentReeds(order.Lines[0].Model, order.Lines[0].Strength, 1);
            order.Parcels = [.. order.Parcels, new SentParcel(order.ShipBy, null, [reed])];
        }
    }

    /// <summary>After the last crash everything is asked once more.</summary>
    public void Recover()
    {
        foreach (var books in all)
        {
            EndAtStripe(books, StripeSessionState.Expired);
            Settle(books, new Step(Act.Settle, 0, 1, false));
            Reconcile(books);
            Carry(books, crash: false);
        }
    }

    /// <summary>What became of orders and refunds in this shop.</summary>
    public IEnumerable<string> Sights() =>
        all.SelectMany(books =>
                books
                    .Refunds.SelectMany(refund => new[] { $"{refund.Reason}", $"{refund.State}" })
                    .Append($"{books.Order.Stage}")
                    .Append(books.Order.ShippingMinor is null ? "shipping in the price" : "shipping apart")
                    .Append(books.Order.Voucher is null ? "no voucher" : "voucher")
                    .Append(books.Order.Parcels.Count > 0 ? $"{books.Order.Stage} after a part had left" : "whole")
                    .Concat(books.Papers.Where(paper => paper.PaymentId is null).Select(paper => $"open {paper.Kind}"))
                    .Concat(books.Payments.Select(payment => $"{payment.Way}"))
            )
            .Distinct();

    public void CheckBooks()
    {
        Assert.All(all, books => Assert.True(books.Ledger.Balances, $"{books.Ledger}"));
        Assert.All(
            all.SelectMany(books => books.Papers),
            paper => Assert.Equal(paper.AmountMinor, paper.Content.Lines.Sum(line => line.AmountMinor))
        );
    }

    public void CheckAgainstStripe()
    {
        foreach (var books in all)
        {
            var paid = books.Sessions.Where(row => sessions[row.Id].State == StripeSessionState.Paid).ToArray();
            var payments = books.Payments.Select(payment => payment.StripeId).OfType<string>().ToArray();
            Assert.Equal(paid.Select(row => sessions[row.Id].Payment).Order(), payments.Order());
            var back = refunds.Values.Where(r => payments.Contains(r.Payment) && !r.Refund.HasFailed);
            Assert.Equal(
                back.Sum(r => r.Refund.AmountSent)
                    + payments.Sum(payment => lost.GetValueOrDefault(payment))
                    + PaidBackByHand(books),
                books.Ledger.Refunded
            );
            CheckStage(books);
        }

        foreach (var kind in all.SelectMany(books => books.Papers).GroupBy(paper => paper.Kind))
        {
            Assert.Equal(Enumerable.Range(1, kind.Count()), kind.Select(paper => paper.Number).Order());
        }
    }

    private static long PaidBackByHand(OrderBooks books)
    {
        var byHand = books.Payments.Where(payment => payment.Way == PaymentWay.ByHand).Select(p => p.Id).ToHashSet();
        return books
            .Refunds.Where(refund => refund.State == RefundState.Done && byHand.Contains(refund.PaymentId))
            .Sum(refund => refund.AmountMinor);
    }

    /// <summary>Nobody is charged twice for one order, and no order that ended unpaid holds on to money.</summary>
    private static void CheckStage(OrderBooks books)
    {
        Assert.NotEqual(OrderStage.AwaitingPayment, books.Order.Stage);
        Assert.True(books.Ledger.Kept <= PayAmounts.Whole(books.Order), $"{books.Ledger}");
        if (books.Order.Stage == OrderStage.Expired)
        {
            Assert.Equal(0, books.Ledger.Refundable);
        }

        // Shipping of what never left goes back with the reeds.
        if (books.Order is { Stage: OrderStage.Cancelled, Parcels.Count: 0 })
        {
            var reeds = (books.Order.Lines[0].Quantity * PriceOfOne) - books.Order.DiscountMinor;
            Assert.True(books.Ledger.Refundable <= reeds * KeptShare, $"{books.Ledger}");
        }
    }

    public OrderBooks Books(Order order) =>
        new(order, Keeping())
        {
            Sessions = [],
            Payments = [],
            Refunds = [],
            Papers = [],
            Disputes = [],
        };

    private void Open(int reeds)
    {
        var byCard = reeds % 4 != 0;
        var books = Books(NewOrder(all.Count + 1, reeds, byCard, reeds % 3 == 0 ? null : Shipping, Off(reeds)));
        all.Add(books);
        if (byCard)
        {
            Ask(books);
        }
    }

    /// <summary>A seventh off every second order, in cents that do not divide evenly.</summary>
    private static long Off(int reeds) =>
        reeds % 2 == 0 ? 0 : new OrderPrice(reeds * PriceOfOne).Less(new Discount(1.0 / 7)).DiscountMinor;

    private BookKeeping Keeping() =>
        new(
            Now,
            new DateOnly(2027, 3, 1),
            "Harbour reeds",
            "maker@example.org",
            kind => numbers[kind] = numbers.GetValueOrDefault(kind) + 1,
            _ => { }
        );

    private void Ask(OrderBooks books)
    {
        var session = books.Ask(PayPart.Whole, PayAmounts.Whole(books.Order));
        session.State = PaySessionState.Open;
        sessions[session.Id] = (StripeSessionState.Open, null);
    }

    private void EndAtStripe(OrderBooks books, StripeSessionState end)
    {
        foreach (var session in books.Sessions.Where(row => sessions[row.Id].State == StripeSessionState.Open))
        {
            sessions[session.Id] = (end, end == StripeSessionState.Paid ? $"pi_{++names}" : null);
        }
    }

    /// <summary>As the one door does it; whether a late payment can be promised afresh is a matter of luck here.</summary>
    private void Settle(OrderBooks books, Step step)
    {
        foreach (var session in books.Sessions.ToArray())
        {
            var told = sessions[session.Id];
            var move = Settlement.Next(OrderStanding.Of(books.Order), session, told.State);
            if (move == SettleMove.CloseAtStripe)
            {
                sessions[session.Id] = told = (StripeSessionState.Expired, null);
                move = Settlement.Next(OrderStanding.Of(books.Order), session, told.State);
            }

            if (!step.Crash)
            {
                Apply(books, session, move, told.Payment, step.Size % 2 == 0);
            }
        }
    }

    private static void Apply(OrderBooks books, PaySession session, SettleMove move, string? payment, bool isLucky)
    {
        switch (move)
        {
            case SettleMove.Expire or SettleMove.CloseRow:
                session.State = PaySessionState.Expired;
                books.Order.Stage = move == SettleMove.Expire ? OrderStage.Expired : books.Order.Stage;
                break;
            case SettleMove.Confirm or SettleMove.TakeLate or SettleMove.TakeAndGiveBack:
                var isKept = move == SettleMove.Confirm || (move == SettleMove.TakeLate && isLucky);
                books.Settle(session, payment!, isKept);
                books.Order.Stage = isKept ? OrderStage.Accepted : books.Order.Stage;
                break;
        }
    }

    private static void Cancel(OrderBooks books, Step step)
    {
        if (OrderMoves.To(OrderMove.Cancel, books.Order.Stage) is { } cancelled)
        {
            books.Order.Stage = cancelled;
            books.LetGo();
            var kept = PayAmounts.KeptWhenCancelled(books.Order, KeptShare, step.Size % 2 == 0);
            if (books.Ledger.Refundable - kept is > 0 and var back)
            {
                books.AskBack(back, RefundReason.Cancelled);
            }
        }
    }

    /// <summary>Under its key a refund is made once, however often it is asked for; more than was paid is refused.</summary>
    private void Carry(OrderBooks books, bool crash)
    {
        foreach (var refund in books.Refunds.Where(row => row.State == RefundState.Wanted).ToArray())
        {
            var payment = books.Payments.Single(row => row.Id == refund.PaymentId);
            if (payment.Way == PaymentWay.ByHand)
            {
                books.GoneBack(refund, null);
                continue;
            }

            if (!refunds.TryGetValue(refund.Id, out var made))
            {
                if (refund.AmountMinor > LeftAtStripe(payment))
                {
                    refund.State = crash ? refund.State : RefundState.Refused;
                    continue;
                }

                made = refunds[refund.Id] = (
                    payment.StripeId!,
                    new StripeRefund($"re_{++names}", refund.Id, refund.AmountMinor, false)
                );
            }

            if (!crash)
            {
                books.Learn(payment, made.Refund);
            }
        }
    }

    private long LeftAtStripe(Payment payment) =>
        payment.AmountMinor
        - lost.GetValueOrDefault(payment.StripeId!)
        - refunds.Values.Where(r => r.Payment == payment.StripeId && !r.Refund.HasFailed).Sum(r => r.Refund.AmountSent);

    /// <summary>Things that happen there without the shop, of which it learns unless it dies.</summary>
    private void AtStripe(OrderBooks books, Step step)
    {
        foreach (var payment in books.Payments.Where(row => row.Way == PaymentWay.Card).Take(1))
        {
            var left = LeftAtStripe(payment);
            switch (step.Act)
            {
                case Act.RefundAtStripe when left > 0:
                    var amount = Math.Min(left, step.Size * 30);
                    var name = $"re_{++names}";
                    refunds[name] = (payment.StripeId!, new StripeRefund(name, null, amount, false));
                    break;
                case Act.RefundFails:
                    foreach (
                        var (key, made) in refunds.Where(r => r.Value.Payment == payment.StripeId).Take(1).ToArray()
                    )
                    {
                        refunds[key] = (made.Payment, made.Refund with { HasFailed = true });
                    }

                    break;
                case Act.DisputeIsLost when left > 0 && !lost.ContainsKey(payment.StripeId!):
                    Reconcile(books);
                    lost[payment.StripeId!] = left;
                    books.FoundGone(payment, left, $"dp_{payment.StripeId}", RefundReason.DisputeLost);
                    break;
            }
        }

        if (!step.Crash)
        {
            Reconcile(books);
        }
    }

    private void Reconcile(OrderBooks books)
    {
        foreach (var payment in books.Payments.Where(row => row.Way == PaymentWay.Card))
        {
            foreach (var made in refunds.Values.Where(r => r.Payment == payment.StripeId).ToArray())
            {
                books.Learn(payment, made.Refund);
            }
        }
    }
}
