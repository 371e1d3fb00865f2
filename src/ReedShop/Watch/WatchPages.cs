using System.Globalization;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

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
            ? (await moving.Move(id, new MoveDateWish(day, form.Text("note")), form.SeenVersion(), cancel)).Refusal
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
        var quantity = form.Whole("quantity");
        var batch = form.Text("batch") is { Length: > 0 } named ? named : null;
        var refusal =
            quantity.Refusal
            ?? (
                Strength.TryParse(form.Text("strength"), out var strength)
                    ? (
                        await rescuing.MakeElsewhere(
                            id,
                            new ElsewhereWish(form.Text("model"), strength, quantity.Value ?? 0, batch),
                            form.SeenVersion(),
                            cancel
                        )
                    ).Refusal
                    : StrengthRefusal
            );
        return refusal is null ? Pages.Go(AddressOf(id)) : await Show(id, reader, null, refusal, cancel);
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

    private static async Task<IResult> Answer(
        string id,
        IFormCollection form,
        Rescuing rescuing,
        CancellationToken cancel
    )
    {
        var answer = form.Text("answer") == "yes";
        var refusal = Strength.TryParse(form.Text("strength"), out var strength)
            ? (
                await rescuing.Answer(
                    id,
                    new StrengthAnswer(form.Text("model"), strength, answer),
                    VersionChecks.None,
                    cancel
                )
            ).Refusal
            : StrengthRefusal;
        return refusal is null ? Pages.Go($"/orders/{id}") : Pages.Refuse(refusal, $"/orders/{id}");
    }

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
