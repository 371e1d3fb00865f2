using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Payments;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Quotes;
using ReedShop.Shop;
using ReedShop.Vouchers;
using static ReedShop.Checkout.CheckoutTexts;

namespace ReedShop.Checkout;

/// <summary>What the order form answers: the form again, with a date, with a refusal beside its field, or the order's page.</summary>
public sealed class Ordering(
    ShopStore shops,
    CatalogueStore catalogue,
    QuoteMaker quoteMaker,
    QuoteStore quotes,
    OrderStore orders,
    CardPayments cards,
    Accepting accepting,
    ShopClock clock
)
{
    private static Refusal RanOut => Refusal.Stage(Say["QuoteRanOut"], Say["NewQuote"]);

    private static Refusal ReedsChanged => Refusal.Stage(Say["ReedsChanged"], Say["DateBelow"]);

    private static Refusal VoucherChanged => Refusal.Stage(Say["VoucherChanged"], Say["PriceBelow"]);

    private static Refusal CountryChanged => Refusal.Stage(Say["CountryChanged"], Say["PriceBelow"]);

    public async Task<IResult> Page(OrderForm typed, Offer? offer, Refusal? refusal, CancellationToken cancel)
    {
        var models = await catalogue.All(cancel);
        return Pages.Show<OrderFormPage>(
            new
            {
                Shop = await shops.Find(cancel),
                Models = models.Where(model => model.Selling).ToArray(),
                Typed = typed with
                {
                    QuoteId = offer?.QuoteId ?? "",
                },
                Offer = offer,
                ByCard = offer is not null && cards.Takes(offer.Price.Currency, offer.Price.Amount),
                Refusal = refusal,
            },
            refusal
        );
    }

    /// <summary>
    /// Makes a date for the reeds typed. It is shown at an address of its own, which can be loaded again: the way back
    /// from an order leads to it without sending a form. Where something of the buyer is typed the page is the answer
    /// itself, so that it is not lost.
    /// </summary>
    /// <param name="before">The reason why an earlier date no longer stands.</param>
    public async Task<IResult> See(OrderForm typed, Refusal? before, CancellationToken cancel)
    {
        var request = typed.ToRequest();
        var quote = request.Refusal is { } fault ? fault : await quoteMaker.Make(request.Value, cancel);
        return quote.Refusal is { } refusal ? await Page(typed, null, refusal, cancel)
            : before is null && !typed.Buyer(besidesCountry: quote.Value.Country is not null).Any()
                ? Pages.Go($"/?quote={quote.Value.Id}#offer")
            : await Page(typed, Offer.Of(quote.Value), before, cancel);
    }

    /// <summary>The form with a date that was made before.</summary>
    public async Task<IResult> Show(string quoteId, CancellationToken cancel)
    {
        if (await quotes.Find(quoteId, cancel) is not { } quote || await shops.Find(cancel) is not { } shop)
        {
            return await Page(OrderForm.Empty, null, RanOut, cancel);
        }

        var typed = OrderForm.Of(quote.Request, shop.Confidence);
        return quote.ValidUntilUtc < clock.NowUtc || await HasEnded(quote, cancel)
            ? await Page(typed, null, RanOut, cancel)
            : await Page(typed, Offer.Of(quote), null, cancel);
    }

    /// <summary>A quote serves one order: one that was cancelled, or not paid in time, has used it up.</summary>
    private async Task<bool> HasEnded(Quote quote, CancellationToken cancel) =>
        await orders.FindByQuote(quote.Id, cancel) is { Stage: OrderStage.Cancelled or OrderStage.Expired };

    /// <summary>The offer alone, for a buyer who is still typing: nothing is stored.</summary>
    public async Task<IResult> Look(OrderForm typed, CancellationToken cancel)
    {
        var request = typed.ToRequest();
        var quote = request.Refusal is { } fault
            ? fault
            : await quoteMaker.Make(request.Value with { Draft = true }, cancel);
        return Pages.Show<OfferAnswer>(
            new
            {
                Offer = quote.Refusal is null ? Offer.Of(quote.Value) : null,
                quote.Refusal,
                Live = true,
            },
            quote.Refusal
        );
    }

    /// <summary>Takes the quote that was seen, if it is still for the reeds typed and its date can still be kept.</summary>
    public async Task<IResult> Order(OrderForm typed, CancellationToken cancel)
    {
        if (await quotes.Find(typed.QuoteId, cancel) is not { } quote || !IsFor(typed, quote))
        {
            return await See(typed, ReedsChanged, cancel);
        }

        if (quote.Request.Country is { } country && Countries.Read(typed.Country) != country)
        {
            return await See(typed, CountryChanged, cancel);
        }

        if (Voucher.Read(typed.Voucher) != (quote.Request.Voucher?.Code ?? ""))
        {
            return await See(typed, VoucherChanged, cancel);
        }

        var accepted = await accepting.Accept(typed.ToWish(), cancel);
        return accepted.Refusal switch
        {
            null => Pages.Go(accepted.Value.StatusUrl),
            { Extra.Value: QuoteView fresh } gone => await Page(
                typed,
                Offer.Of(fresh),
                gone with
                {
                    Allowed = Say["DateBelow"],
                },
                cancel
            ),
            // The price that was seen went with the voucher.
            { Field: VoucherCheck.Field } refusal => await Page(typed, null, refusal, cancel),
            { Field: { } } refusal => await Page(typed, Offer.Of(quote), refusal, cancel),
            var ranOut => await See(typed, ranOut, cancel),
        };
    }

    private static bool IsFor(OrderForm typed, Quote quote)
    {
        if (typed.ToRequest() is not { IsRefused: false, Value: var request })
        {
            return false;
        }

        var wanted = request
            .Lines.GroupBy(line => (line.Model, line.Strength))
            .Select(same => (same.Key.Model, same.Key.Strength, same.Sum(line => line.Quantity)));
        return request.Neighbours == quote.Request.Neighbours
            && (request.NeedBy, request.PartsAreFine) == (quote.Request.NeedBy, quote.Request.PartsAreFine)
            && (request.Confidence ?? quote.Request.Confidence).Equals(quote.Request.Confidence)
            && wanted.SequenceEqual(quote.Request.Lines.Select(line => (line.Model, line.Strength, line.Quantity)));
    }
}
