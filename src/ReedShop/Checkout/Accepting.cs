using ReedShop.Orders;
using ReedShop.Payments;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Quotes;
using ReedShop.Shop;
using ReedShop.Vouchers;
using ReedShop.Workshop;
using static ReedShop.Checkout.CheckoutTexts;

namespace ReedShop.Checkout;

/// <summary>
/// Turns a quote into an accepted order. The promise is checked against the facts of this moment: it is refused only
/// when the date can no longer be kept with the chance that was stated, and then a fresh quote comes with the refusal.
/// </summary>
public sealed class Accepting(Bench bench, QuoteMaker quoteMaker, PaySessions sessions)
{
    public async Task<Result<OrderView>> Accept(OrderWish wish, CancellationToken cancel)
    {
        var parsed = wish.Parse();
        if (parsed.Refusal is { } fault)
        {
            return fault;
        }

        ValidRequest? again = null;
        var accepted = await bench.Change(
            async (services, facts, stop) =>
            {
                var result = await services.GetRequiredService<Acceptance>().Accept(facts, parsed.Value, stop);
                again = result.Request;
                return result.Order;
            },
            cancel
        );
        return accepted.Refusal switch
        {
            null => accepted.Value with { PayUrl = await sessions.Url(accepted.Value.Id, cancel) },
            { } gone when gone.Kind == RefusalKind.PromiseGone && again is not null => await WithFreshQuote(
                gone,
                again,
                cancel
            ),
            var refusal => refusal,
        };
    }

    private async Task<Refusal> WithFreshQuote(Refusal refusal, ValidRequest request, CancellationToken cancel)
    {
        var fresh = await quoteMaker.MakeAgain(request, cancel);
        return fresh.Refusal is null ? refusal with { Extra = ("quote", fresh.Value) } : refusal;
    }
}

/// <summary>The part of accepting that happens within one change of the bench.</summary>
public sealed class Acceptance(
    QuoteStore quotes,
    OrderStore orders,
    JournalStore journal,
    OutboxStore outbox,
    CardPayments cards,
    VoucherCheck vouchers,
    PublicAddress address
)
{
    public async Task<(Result<OrderView> Order, ValidRequest? Request)> Accept(
        BenchFacts facts,
        OrderWish wish,
        CancellationToken cancel
    )
    {
        if (await quotes.Find(wish.QuoteId, cancel) is not { } quote)
        {
            return (Refusal.Invalid("quoteId", Say["NoSuchQuote"], Say["QuoteIdOf"]), null);
        }

        if (await orders.FindByQuote(quote.Id, cancel) is { } taken)
        {
            return (Again(taken, wish), null);
        }

        if (quote.ValidUntilUtc < facts.NowUtc || !facts.Shop.Selling || quote.Currency != facts.Shop.Currency)
        {
            return (Refusal.Stage(Say["QuoteRanOut"], Say["NewQuote"]), null);
        }

        if (HasTooManyAwaited(facts, wish))
        {
            return (Refusal.Stage(Say["TooManyAwaited"], Say["TooManyAwaited.instead"]), null);
        }

        if ((CountryFault(quote, wish) ?? await VoucherFault(quote, cancel)) is { } fault)
        {
            return (fault, null);
        }

        var asked = quote.Request.Ask(quote.Request.Confidence);
        return StillKept.By(ShopStates.Of(facts), asked, quote.ShipBy, quote.Chance) is { } promise
            ? (await Write(facts, wish, quote, promise, cancel), null)
            : (Gone(quote), quote.Request);
    }

    private static Result<OrderView> Again(Order order, OrderWish wish) =>
        (order.BuyerName, order.BuyerEmail, order.Address) == (wish.Buyer.Name, wish.Buyer.Email, wish.Address)
            ? OrderView.Of(order)
            : new Refusal(RefusalKind.KeyReused, Say["QuoteTaken"], "quoteId", Say["SameBodyAgain"]);

    /// <summary>The price that was told pays for shipping to one country.</summary>
    private static Refusal? CountryFault(Quote quote, OrderWish wish) =>
        quote.Request.Country is { } country && Countries.Read(wish.Address.Country) != country
            ? Refusal.Invalid(
                "address.country",
                Say["OtherCountry", Countries.Name(country)],
                Say["CountryOrNewQuote", country]
            )
            : null;

    /// <summary>Its last use may be gone by now. Its last day was looked at when the price was told.</summary>
    private async Task<Refusal?> VoucherFault(Quote quote, CancellationToken cancel) =>
        quote.Request.Voucher is { } voucher
            ? (await vouchers.Usable(voucher.Code, quote.Price, quote.Currency, voucher.ToldOn, cancel)).Refusal
            : null;

    private static bool HasTooManyAwaited(BenchFacts facts, OrderWish wish) =>
        facts.Orders.Count(order =>
            order.Stage == OrderStage.AwaitingPayment
            && order.BuyerEmail.Equals(wish.Buyer.Email, StringComparison.OrdinalIgnoreCase)
        ) >= CardPayments.MostAwaitedPerBuyer;

    private static Refusal Gone(Quote quote) =>
        new(RefusalKind.PromiseGone, Say["PromiseGone", Words.DayToSend(quote.ShipBy)], "quoteId", Say["FreshQuote"]);

    private async Task<OrderView> Write(
        BenchFacts facts,
        OrderWish wish,
        Quote quote,
        Promise promise,
        CancellationToken cancel
    )
    {
        var byCard = cards.Takes(quote.Currency, quote.Price.TotalMinor);
        var order = NewOrder(facts, wish, quote, promise, await orders.NextNumber(cancel), byCard);
        orders.Add(order);
        facts.Orders.Add(order);
        Replanner.Move(facts, promise.Moved);
        foreach (var (line, promised) in order.Lines.Zip(promise.Lines))
        {
            Pegging.Keep(facts, order, line, promised);
        }

        if (order.Stage == OrderStage.AwaitingPayment)
        {
            journal.Write("buyer", $"order {order.Number}", $"held to be paid, to ship by {order.ShipBy:yyyy-MM-dd}");
            await cards.Await(order, facts.Shop, cancel);
        }
        else
        {
            Pegging.MarkIfComplete(facts, order);
            journal.Write("buyer", $"order {order.Number}", $"accepted, to ship by {order.ShipBy:yyyy-MM-dd}");
            var letters = new OrderMessages(facts.Shop, facts.Models);
            var message = letters.Confirmed(order, address.Of($"/orders/{order.Id}"));
            outbox.Add(
                "order-confirmed",
                $"order {order.Number}",
                order.BuyerEmail,
                message.Title,
                message.Text,
                asked: true,
                language: order.Language
            );
        }

        return OrderView.Of(order);
    }

    private static Order NewOrder(
        BenchFacts facts,
        OrderWish wish,
        Quote quote,
        Promise promise,
        int number,
        bool byCard
    ) =>
        new()
        {
            Id = Links.New(),
            Number = number,
            QuoteId = quote.Id,
            Stage = byCard ? OrderStage.AwaitingPayment : OrderStage.Accepted,
            PaysBeforeShipping = byCard,
            BuyerName = wish.Buyer.Name,
            BuyerEmail = wish.Buyer.Email,
            Address = wish.Address,
            Language = wish.Language ?? Languages.Usual.Name,
            Lines =
            [
                .. quote.Request.Lines.Select(
                    (line, index) =>
                        new OrderLine
                        {
                            Position = index + 1,
                            Model = line.Model,
                            Strength = line.Strength,
                            Quantity = line.Quantity,
                            UnitPriceMinor = line.UnitPriceMinor,
                        }
                ),
            ],
            PriceMinor = quote.Price.TotalMinor,
            ShippingMinor = quote.Price.ShippingMinor,
            DiscountMinor = quote.Price.DiscountMinor,
            Voucher = quote.Request.Voucher?.Code,
            // Who owes nothing has paid.
            PaidUtc = quote.Price.TotalMinor == 0 ? facts.NowUtc : null,
            Currency = quote.Currency,
            AcceptedUtc = facts.NowUtc,
            ShipBy = quote.ShipBy,
            FirstShipBy = quote.ShipBy,
            FirstChance = quote.Chance,
            NeedBy = quote.Request.NeedBy,
            PartsAreFine = quote.Request.PartsAreFine,
            FinishBy = promise.FinishBy,
            Confidence = quote.Request.Confidence,
            Chance = quote.Chance,
            FirstTry = promise.FirstTry,
            Neighbours = quote.Request.Neighbours,
        };
}
