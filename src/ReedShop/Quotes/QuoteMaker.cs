using ReedShop.Catalogue;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Quotes;

/// <summary>Answers "what does it cost, and when?".</summary>
public sealed class QuoteMaker(StateReader states, CatalogueStore catalogue, QuoteStore quotes, ShopClock clock)
{
    private const int ValidHours = 24;

    public async Task<Result<QuoteView>> Make(QuoteRequest wish, CancellationToken cancel)
    {
        var read = await states.Read(cancel);
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var known = read.Value;
        if (!known.Shop.Selling)
        {
            return Refusal.Stage("The shop takes no orders at the moment.", "an order once the shop sells again");
        }

        var models = (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);
        var parsed = ValidRequest.Parse(wish, known.Shop, models);
        return parsed.Refusal is { } fault ? fault : await Answer(known, parsed.Value, wish.Draft, cancel);
    }

    /// <summary>Quotes a request that was valid before, afresh.</summary>
    public async Task<Result<QuoteView>> MakeAgain(ValidRequest request, CancellationToken cancel)
    {
        var read = await states.Read(cancel);
        return read.Refusal is { } refusal ? refusal : await Answer(read.Value, request, false, cancel);
    }

    private async Task<Result<QuoteView>> Answer(
        KnownState known,
        ValidRequest request,
        bool draft,
        CancellationToken cancel
    )
    {
        var last = known.State.Today.AddDays(known.State.Work.OpenMinutes.Count - 1);
        if (request.NeedBy > last)
        {
            return Refusal.Invalid(
                "needBy",
                "So far ahead nothing is planned.",
                $"a day up to {last:yyyy-MM-dd}, or none"
            );
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
            PriceMinor = request.PriceMinor,
            Currency = known.Shop.Currency,
            ShipBy = promise.ShipBy,
            Chance = promise.Chance,
            MadeUtc = clock.NowUtc,
            ValidUntilUtc = clock.NowUtc.AddHours(ValidHours),
            FactsVersion = known.Version,
        };
        if (!draft)
        {
            await quotes.Add(quote, cancel);
        }

        return View(known, quote, promise, draft);
    }

    private static QuoteView View(KnownState known, Quote quote, Promise promise, bool draft) =>
        new(
            draft ? null : quote.Id,
            promise.ShipBy,
            promise.Confidence,
            promise.Chance,
            new Money(quote.PriceMinor, quote.Currency),
            quote.ValidUntilUtc,
            [.. promise.Lines.Select(QuoteLineView.Of)],
            Because.Of(known.State, promise),
            Sooner.Than(known.State, quote.Request, promise),
            Parcels.Of(known.State, quote.Request, promise),
            NeedBy(known, quote.Request, promise)
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
                "No parcel leaves by then.",
                $"a day from {known.State.Today.AddDays(1):yyyy-MM-dd} on"
            )
            : new Refusal(
                RefusalKind.NoPromise,
                $"These reeds can be promised by {promise.ShipBy:yyyy-MM-dd}, not by {request.NeedBy:yyyy-MM-dd}.",
                "needBy",
                string.Join(
                    "; ",
                    Sooner
                        .Than(known.State, request, promise)
                        .Where(sooner => sooner.ShipBy <= request.NeedBy)
                        .Select(sooner => $"{sooner.Change}: {sooner.ShipBy:yyyy-MM-dd}")
                        .Append($"{promise.ShipBy:yyyy-MM-dd} or later")
                )
            );

    private static Refusal NoPromise(NoPromiseReason? reason) =>
        reason switch
        {
            NoPromiseReason.TooLittleCane => new Refusal(
                RefusalKind.NoPromise,
                "There are not enough blanks or seasoned cane for so many reeds at this confidence.",
                "quantity",
                "fewer reeds, or a lower confidence"
            ),
            NoPromiseReason.TooUncertain => new Refusal(
                RefusalKind.NoPromise,
                "Too little is known of past batches to promise so many reeds at this confidence.",
                "confidence",
                "a lower confidence, or half a strength either side; the maker can import the history of past batches"
            ),
            NoPromiseReason.NoEvenings => new Refusal(
                RefusalKind.NoPromise,
                "There is no evening left for so many reeds within the months ahead.",
                "quantity",
                "fewer reeds, or another strength"
            ),
            _ => new Refusal(
                RefusalKind.NoPromise,
                "No ship date reaches this confidence.",
                "confidence",
                "a lower confidence, or fewer reeds"
            ),
        };
}
