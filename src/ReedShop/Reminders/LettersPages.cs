using System.Globalization;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Reminders;

/// <summary>Letters to the maker: which are wanted, and when none goes out.</summary>
public static class LettersPages
{
    public const string Address = "/bench/letters";

    public const string Wanted = "wanted";

    private const int MostCaneWeeks = 104;

    internal static Refusal OthersCameFirst { get; } =
        new(RefusalKind.Busy, "The letters were being changed just then; try again.");

    public static void MapLettersPages(this IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        pages.MapGet("", Show);
        pages.MapPost("", Keep);
    }

    private static async Task<IResult> Show(
        LetterStore letters,
        OutboxStore outbox,
        CancellationToken cancel,
        int? saved = null
    ) => await Page(await letters.Read(cancel), outbox, null, null, saved is not null, cancel);

    private static async Task<IResult> Keep(
        IFormCollection form,
        LetterStore letters,
        OutboxStore outbox,
        CancellationToken cancel
    )
    {
        var settings = await letters.ForChange(cancel);
        if (Fault(form, settings) is { } fault)
        {
            return await Page(settings, outbox, form, fault, saved: false, cancel);
        }

        settings.Version++;
        return await letters.TrySave(cancel)
            ? Pages.Go($"{Address}?saved=1")
            : await Page(settings, outbox, form, OthersCameFirst, saved: false, cancel);
    }

    /// <summary>Takes the form over, or says what is wrong with it; then nothing is saved.</summary>
    private static Refusal? Fault(IFormCollection form, LetterSettings settings)
    {
        var (from, until) = (Time(form, "quietFrom"), Time(form, "quietUntil"));
        var weeks = form.Whole("caneWeeks")
            .Then<int>(number =>
                number is > 0 and <= MostCaneWeeks
                    ? number.Value
                    : Refusal.Invalid("caneWeeks", "So many weeks cannot be used.", $"1 to {MostCaneWeeks} weeks")
            );
        if ((from.Refusal ?? until.Refusal ?? weeks.Refusal) is { } fault)
        {
            return fault;
        }

        (settings.QuietFrom, settings.QuietUntil, settings.CaneWeeks) = (from.Value, until.Value, weeks.Value);
        settings.Stopped = [.. LetterKind.All.Select(kind => kind.Name).Where(name => !form[Wanted].Contains(name))];
        return null;
    }

    private static Result<TimeOnly> Time(IFormCollection form, string field) =>
        TimeOnly.TryParseExact(
            form.Text(field),
            "H:mm",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var time
        )
            ? time
            : Refusal.Invalid(field, $"“{form.Text(field)}” is not a time of day.", "hours and minutes, such as 22:00");

    private static async Task<IResult> Page(
        LetterSettings settings,
        OutboxStore outbox,
        IFormCollection? typed,
        Refusal? refusal,
        bool saved,
        CancellationToken cancel
    ) =>
        Pages.Show<LettersPage>(
            new
            {
                Letters = settings,
                Waiting = (await outbox.Undelivered(cancel)).Count,
                Typed = typed,
                Refusal = refusal,
                Saved = saved,
            },
            refusal
        );
}
