using System.Globalization;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Watch;

/// <summary>The pages of a promise that needs the maker's eye, and the buyer's answer to a question.</summary>
public static class WatchPages
{
    private const string Orders = "/bench/orders";

    public static string AddressOf(string orderId) => $"{Orders}/{orderId}/watch";

    public static void MapWatchPages(this IEndpointRouteBuilder routes)
    {
        var watch = routes
            .MapGroup(Orders + "/{id}/watch")
            .RequireAuthorization(Access.OwnerCookie)
            .ExcludeFromDescription();
        watch
            .MapGet(
                "",
                (string id, WatchReader reader, CancellationToken cancel) => Show(id, reader, null, null, cancel)
            )
            .RequireRateLimiting(Computing.Policy);
        watch.MapPost("move", Move);
        watch.MapPost("longer", OpenLonger);
        watch.MapPost("elsewhere", MakeElsewhere);
        watch.MapPost("ask", Ask);
        watch.MapPost("clip", Clip);
        routes.MapPost("/orders/{id}/strength", Answer).ExcludeFromDescription();
        routes
            .MapGet("/bench/tonight", Tonight)
            .RequireRateLimiting(Computing.Policy)
            .RequireAuthorization(Access.OwnerCookie)
            .ExcludeFromDescription();
    }

    private static async Task<IResult> Show(
        string id,
        WatchReader reader,
        IFormCollection? typed,
        Refusal? refusal,
        CancellationToken cancel
    )
    {
        var view = await reader.Read(id, cancel);
        return view.Refusal is { } missing
            ? Pages.Refuse(refusal ?? missing, Orders, Orders)
            : Pages.Show<WatchPage>(
                new
                {
                    Watch = view.Value,
                    Typed = typed,
                    Refusal = refusal,
                },
                refusal
            );
    }

    private static async Task<IResult> Move(
        string id,
        IFormCollection form,
        Moving moving,
        WatchReader reader,
        CancellationToken cancel
    )
    {
        var refusal = Day(form, "shipBy") is { } day
            ? (
                await moving.Move(
                    id,
                    new MoveDateWish(day, form.Text("note"), form.Text("anyway").Length > 0),
                    form.SeenVersion(),
                    cancel
                )
            ).Refusal
            : Refusal.Invalid("shipBy", "Which day?", "a date such as 2027-03-04");
        return refusal is null ? Pages.Go(Orders) : await Show(id, reader, form, refusal, cancel);
    }

    private static async Task<IResult> OpenLonger(
        string id,
        IFormCollection form,
        ShopCommands shop,
        WatchReader reader,
        CancellationToken cancel
    )
    {
        var minutes = form.Whole("minutes");
        var refusal =
            minutes.Refusal
            ?? (
                Day(form, "date") is { } day
                    ? (await shop.OpenLonger(day, minutes.Value ?? 0, cancel)).Refusal
                    : Refusal.Invalid("date", "Which day?", "a date such as 2027-03-04")
            );
        return refusal is null ? Pages.Go(AddressOf(id)) : await Show(id, reader, null, refusal, cancel);
    }

    private static async Task<IResult> MakeElsewhere(
        string id,
        IFormCollection form,
        Rescuing rescuing,
        WatchReader reader,
        CancellationToken cancel
    )
    {
        var wish = ReadElsewhere(form);
        var made = wish.Refusal is { } fault
            ? fault
            : await rescuing.MakeElsewhere(id, wish.Value, form.SeenVersion(), cancel);
        return made.Refusal is { } refusal ? await Show(id, reader, null, refusal, cancel)
            : made.Value.Status == OrderStage.Ready ? Pages.Go(Orders)
            : Pages.Go(AddressOf(id));
    }

    private static Result<ElsewhereWish> ReadElsewhere(IFormCollection form)
    {
        var numbers = form.Wholes("quantity", "factsVersion");
        return numbers.Refusal is { } refusal ? refusal
            : Strength.TryParse(form.Text("strength"), out var strength)
                ? new ElsewhereWish(
                    form.Text("model"),
                    strength,
                    numbers.Value["quantity"],
                    form.Text("batch") is { Length: > 0 } batch ? batch : null,
                    numbers.Value["factsVersion"]
                )
            : StrengthRefusal;
    }

    private static async Task<IResult> Ask(
        string id,
        IFormCollection form,
        Rescuing rescuing,
        WatchReader reader,
        CancellationToken cancel
    )
    {
        var refusal =
            Strength.TryParse(form.Text("strength"), out var strength)
            && Strength.TryParse(form.Text("also"), out var also)
                ? (
                    await rescuing.Ask(id, new AskWish(form.Text("model"), strength, also), form.SeenVersion(), cancel)
                ).Refusal
                : StrengthRefusal;
        return refusal is null ? Pages.Go(AddressOf(id)) : await Show(id, reader, null, refusal, cancel);
    }

    private static async Task<IResult> Clip(
        string id,
        IFormCollection form,
        Stocktaking stocktaking,
        WatchReader reader,
        CancellationToken cancel
    )
    {
        var wish = StockPages.ReadClip(form).Then<ClipWish>(clip => clip with { Order = id });
        var refusal = wish.Refusal ?? (await stocktaking.Clip(wish.Value, cancel)).Refusal;
        return refusal is null ? Pages.Go(Orders) : await Show(id, reader, null, refusal, cancel);
    }

    private static async Task<IResult> Answer(
        string id,
        IFormCollection form,
        Rescuing rescuing,
        CancellationToken cancel
    )
    {
        var answer = ReadAnswer(form);
        var refusal = answer.Refusal ?? (await rescuing.Answer(id, answer.Value, VersionChecks.None, cancel)).Refusal;
        return refusal is null ? Pages.Go($"/orders/{id}") : Pages.Refuse(refusal, $"/orders/{id}");
    }

    private static Result<StrengthAnswer> ReadAnswer(IFormCollection form) =>
        Strength.TryParse(form.Text("strength"), out var strength) && Strength.TryParse(form.Text("also"), out var also)
            ? new StrengthAnswer(form.Text("model"), strength, also, form.Text("answer") == "yes")
            : StrengthRefusal;

    private static async Task<IResult> Tonight(TonightReader reader, CancellationToken cancel, string? minutes = null)
    {
        if (string.IsNullOrWhiteSpace(minutes))
        {
            return Pages.Show<TonightPage>(new { Minutes = "" });
        }

        var answer = int.TryParse(minutes, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? await reader.Read(number, cancel)
            : TonightReader.MinutesRefusal(minutes);
        return Pages.Show<TonightPage>(
            new
            {
                Minutes = minutes,
                Tonight = answer.IsRefused ? null : answer.Value,
                answer.Refusal,
            },
            answer.Refusal
        );
    }

    private static Refusal StrengthRefusal =>
        Refusal.Invalid("strength", "The strength cannot be used.", Strength.Allowed);

    private static DateOnly? Day(IFormCollection form, string name) =>
        DateOnly.TryParseExact(
            form.Text(name),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
            : null;
}
