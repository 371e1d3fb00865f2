using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Shop;
using ReedShop.Vouchers;
using ReedShop.Workshop;
using static ReedShop.Quotes.QuoteTexts;

namespace ReedShop.Quotes;

/// <summary>Answers "what does it cost, and when?".</summary>
public sealed class QuoteMaker(
    StateReader states,
    CatalogueStore catalogue,
    QuoteStore quotes,
    VoucherCheck vouchers,
    ShopClock clock
)
{
    private const int ValidHours = 24;

    public Task<Result<QuoteView>> Make(QuoteRequest wish, CancellationToken cancel) =>
        Make(wish, shop => shop.Shipping, cancel);

    /// <summary>The date and the reeds alone, wherever they go: for the owner, who has no buyer yet. Nothing is stored.</summary>
    public Task<Result<QuoteView>> MakeForNobody(QuoteRequest wish, CancellationToken cancel) =>
        Make(wish with { Draft = true }, _ => ShippingTerms.None, cancel);

    private async Task<Result<QuoteView>> Make(
        QuoteRequest wish,
        Func<ShopSettings, ShippingTerms> shipping,
        CancellationToken cancel
    )
    {
        var read = await states.Read(cancel);
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var known = read.Value;
        if (!known.Shop.Selling)
        {
            return Refusal.Stage(Say["NotSelling"], Say["OnceItSells"]);
        }

        var models = await Models(cancel);
        var parsed = ValidRequest.Parse(wish, known.Shop.Confidence, shipping(known.Shop), models);
        var priced = parsed.IsRefused ? parsed : await WithVoucher(parsed.Value, wish.Voucher, known.Shop, cancel);
        return priced.Refusal is { } fault ? fault : await Answer(known, models, priced.Value, wish.Draft, cancel);
    }

    /// <summary>Quotes a request that was valid before, afresh.</summary>
    public async Task<Result<QuoteView>> MakeAgain(ValidRequest request, CancellationToken cancel)
    {
        var read = await states.Read(cancel);
        return read.Refusal is { } refusal
            ? refusal
            : await Answer(read.Value, await Models(cancel), request, false, cancel);
    }

    private async Task<Result<ValidRequest>> WithVoucher(
        ValidRequest request,
        string? code,
        ShopSettings shop,
        CancellationToken cancel
    )
    {
        if (string.IsNullOrWhiteSpace(code))
        {
            return request;
        }

        var price = request.Price;
        return (await vouchers.Usable(code, price, shop.Currency, clock.Today(shop.Zone), cancel)).Then<ValidRequest>(
            voucher =>
                request with
                {
                    Voucher = new VoucherOf(
                        voucher.Code,
                        price.Less(voucher.Discount).DiscountMinor,
                        clock.Today(shop.Zone)
                    ),
                }
        );
    }

    private async Task<IReadOnlyDictionary<string, ReedModel>> Models(CancellationToken cancel) =>
        (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);

    private async Task<Result<QuoteView>> Answer(
        KnownState known,
        IReadOnlyDictionary<string, ReedModel> models,
        ValidRequest request,
        bool draft,
        CancellationToken cancel
    )
    {
        var last = known.State.Today.AddDays(known.State.Work.OpenMinutes.Count - 1);
        if (request.NeedBy > last)
        {
            return Refusal.Invalid("needBy", Say["NothingPlannedSoFar"], Say["DayUpTo", Words.DayToSend(last)]);
        }

        var answer = ForecastPromiser.Promise(known.State, request.Ask(request.Confidence));
        if (answer.Promise is not { } promise)
        {
            return NoPromise(answer.Reason);
        }

        if (promise.ShipBy > request.NeedBy)
        {
            return TooLate(known, request, promise);
        }

        var quote = new Quote
        {
            Id = Links.New(),
            Request = request,
            Currency = known.Shop.Currency,
            ShipBy = promise.ShipBy,
            Chance = promise.Chance,
            MadeUtc = clock.NowUtc,
            ValidUntilUtc = clock.NowUtc.AddHours(ValidHours),
            FactsVersion = known.Version,
            Reasons = Reasons(known, models, request, promise),
        };
        if (!draft)
        {
            await quotes.Add(quote, cancel);
        }

        return View(quote, promise, draft);
    }

    private static QuoteReasons Reasons(
        KnownState known,
        IReadOnlyDictionary<string, ReedModel> models,
        ValidRequest request,
        Promise promise
    ) =>
        new(
            Words.Culture.Name,
            Because.Of(known.State, promise, models),
            Sooner.Than(known.State, request, promise),
            Parcels.Of(known.State, request, promise),
            NeedBy(known, request, promise)
        );

    private static QuoteView View(Quote quote, Promise promise, bool draft) =>
        new(
            draft ? null : quote.Id,
            promise.ShipBy,
            promise.Confidence,
            promise.Chance,
            new Money(quote.Price.TotalMinor, quote.Currency),
            quote.ValidUntilUtc,
            [.. promise.Lines.Select(QuoteLineView.Of)],
            quote.Reasons.Because,
            quote.Reasons.Sooner,
            quote.Reasons.Parcels,
            quote.Reasons.NeedBy,
            PriceParts.Of(quote.Price, quote.Request.Voucher?.Code, quote.Currency),
            quote.Request.Country
        );

    private static NeedByView? NeedBy(KnownState known, ValidRequest request, Promise promise)
    {
        var asked = request.Ask(request.Confidence);
        return request.NeedBy is { } day
            ? new NeedByView(
                day,
                ForecastPromiser.ChanceBy(known.State, asked, promise, day),
                LatestOrder.For(known.State, asked, day) ?? known.State.Today
            )
            : null;
    }

    private static Refusal TooLate(KnownState known, ValidRequest request, Promise promise) =>
        request.NeedBy <= known.State.Today
            ? Refusal.Invalid(
                "needBy",
                Say["NoParcelByThen"],
                Say["DayFrom", Words.DayToSend(known.State.Today.AddDays(1))]
            )
            : new Refusal(
                RefusalKind.NoPromise,
                Say["PromisedByNotBy", Words.DayToSend(promise.ShipBy), Words.DayToSend(request.NeedBy!.Value)],
                "needBy",
                string.Join(
                    "; ",
                    Sooner
                        .Than(known.State, request, promise)
                        .Where(sooner => sooner.ShipBy <= request.NeedBy)
                        .Select(sooner => Say["SoonerBy", sooner.Change, Words.DayToSend(sooner.ShipBy)])
                        .Append(Say["OrLater", Words.DayToSend(promise.ShipBy)])
                )
            );

    private static Refusal NoPromise(NoPromiseReason? reason) =>
        reason switch
        {
            NoPromiseReason.TooLittleCane => NoPromise("TooLittleCane", "quantity"),
            NoPromiseReason.TooUncertain => NoPromise("TooUncertain", "confidence"),
            NoPromiseReason.NoEvenings => NoPromise("NoEvenings", "quantity"),
            _ => NoPromise("NoDateReaches", "confidence"),
        };

    private static Refusal NoPromise(string key, string field) =>
        new(RefusalKind.NoPromise, Say[key], field, Say[$"{key}.instead"]);
}
