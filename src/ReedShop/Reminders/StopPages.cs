using System.Security.Cryptography;
using System.Text;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Reminders;

/// <summary>
/// Where a letter stops its own kind. A mail program does it with one POST and no cookie (RFC 8058); a person sees a page
/// first, because programs that look at every link in a letter must not stop anything by looking.
/// </summary>
public static class StopPages
{
    public const string Address = "/letters";

    /// <summary>The field and the value that RFC 8058, 3.1, has a mail program send.</summary>
    public const string Field = "List-Unsubscribe";

    public const string OneClick = "One-Click";

    public static void MapStopPages(this IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup(Address).ExcludeFromDescription().DisableAntiforgery();
        pages.MapGet("{secret}/{kind}", Show);
        pages.MapPost("{secret}/{kind}", Stop);
    }

    public static string AddressOf(string secret, LetterKind kind) => $"{Address}/{secret}/{kind.Name}";

    private static async Task<IResult> Show(string secret, string kind, LetterStore letters, CancellationToken cancel)
    {
        var settings = await letters.Read(cancel);
        return Known(settings, secret, kind) is { } known
            ? Pages.Show<StopPage>(new { Kind = known, Stopped = !settings.Wants(known) })
            : Pages.Refuse(Refusal.Missing("such letter"), "/");
    }

    private static async Task<IResult> Stop(
        string secret,
        string kind,
        IFormCollection form,
        LetterStore letters,
        CancellationToken cancel
    )
    {
        var settings = await letters.ForChange(cancel);
        if (Known(settings, secret, kind) is not { } known || form.Text(Field) != OneClick)
        {
            return Pages.Refuse(Refusal.Missing("such letter"), "/");
        }

        if (settings.Wants(known))
        {
            settings.Stopped = [.. settings.Stopped, known.Name];
            settings.Version++;
            if (!await letters.TrySave(cancel))
            {
                return Pages.Refuse(LettersPages.OthersCameFirst, "/");
            }
        }

        return Pages.Show<StopPage>(new { Kind = known, Stopped = true });
    }

    private static LetterKind? Known(LetterSettings settings, string secret, string kind) =>
        LetterKind.Find(kind) is { IsAboutOrder: false } known
        && CryptographicOperations.FixedTimeEquals(
            Encoding.UTF8.GetBytes(settings.Secret),
            Encoding.UTF8.GetBytes(secret)
        )
            ? known
            : null;
}
