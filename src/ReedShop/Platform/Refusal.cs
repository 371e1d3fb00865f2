using ReedShop.Platform.Layout;

namespace ReedShop.Platform;

/// <summary>A kind of refusal with its published address, title and status. The list is the whole of them.</summary>
public sealed record RefusalKind(string Slug, int Status, string Meaning)
{
    public string Title => FrameTexts.Say[$"Refusal.{Slug}"];

    public static readonly RefusalKind InvalidValue = new(
        "invalid-value",
        StatusCodes.Status422UnprocessableEntity,
        "A field holds something the shop cannot use; `field` names it and `allowed` says what would be accepted."
    );

    public static readonly RefusalKind Unreadable = new(
        "unreadable",
        StatusCodes.Status400BadRequest,
        "The body is not JSON of the documented shape; unknown members are refused."
    );

    public static readonly RefusalKind NotFound = new(
        "not-found",
        StatusCodes.Status404NotFound,
        "Nothing is known by that name or link."
    );

    public static readonly RefusalKind WrongStage = new(
        "wrong-stage",
        StatusCodes.Status409Conflict,
        "The order, batch or quote has moved on; `allowed` says from which stages the move is possible."
    );

    public static readonly RefusalKind PromiseGone = new(
        "promise-gone",
        StatusCodes.Status409Conflict,
        "The evenings were taken meanwhile; `quote` holds a fresh quote for the same lines."
    );

    public static readonly RefusalKind NoPromise = new(
        "no-promise",
        StatusCodes.Status409Conflict,
        "With the evenings, the rack and the cane as they are, no date reaches the confidence asked for."
    );

    public static readonly RefusalKind RuleBroken = new(
        "rule-broken",
        StatusCodes.Status409Conflict,
        "A day is too short, the rack too small or a night missing; `detail` names the rule."
    );

    public static readonly RefusalKind KeyReused = new(
        "key-reused",
        StatusCodes.Status422UnprocessableEntity,
        "This was answered before for a different request; send the same body, or use a new key."
    );

    public static readonly RefusalKind ChangedMeanwhile = new(
        "changed-meanwhile",
        StatusCodes.Status412PreconditionFailed,
        "Read it again and send its new ETag in If-Match."
    );

    public static readonly RefusalKind VersionMissing = new(
        "version-missing",
        StatusCodes.Status428PreconditionRequired,
        "Send the ETag of what you read in If-Match."
    );

    public static readonly RefusalKind NotSignedIn = new(
        "not-signed-in",
        StatusCodes.Status401Unauthorized,
        "Send `Authorization: Bearer` with the owner's token; pages are for the owner's cookie."
    );

    public static readonly RefusalKind TooLarge = new(
        "too-large",
        StatusCodes.Status413PayloadTooLarge,
        "Send it in smaller parts."
    );

    public static readonly RefusalKind Busy = new(
        "busy",
        StatusCodes.Status503ServiceUnavailable,
        "Many changes or questions came at once; try again after the seconds in Retry-After."
    );

    public static readonly RefusalKind WrongMethod = new(
        "wrong-method",
        StatusCodes.Status405MethodNotAllowed,
        "The address exists but takes another method; the Allow header names them."
    );

    public static readonly RefusalKind Broken = new(
        "broken",
        StatusCodes.Status500InternalServerError,
        "The fault is in the log. A repeated POST is safe with the same Idempotency-Key."
    );

    public static IReadOnlyList<RefusalKind> All { get; } =
    [
        InvalidValue,
        Unreadable,
        NotFound,
        WrongStage,
        PromiseGone,
        NoPromise,
        RuleBroken,
        KeyReused,
        ChangedMeanwhile,
        VersionMissing,
        NotSignedIn,
        TooLarge,
        Busy,
        WrongMethod,
        Broken,
    ];
}

/// <summary>Why something was not done, and what would have been.</summary>
/// <param name="Extra">Further members of the problem document, such as the fresh quote.</param>
public sealed record Refusal(
    RefusalKind Kind,
    string Detail,
    string? Field = null,
    string? Allowed = null,
    (string Name, object Value)? Extra = null
)
{
    public static Refusal Invalid(string field, string detail, string allowed) =>
        new(RefusalKind.InvalidValue, detail, field, allowed);

    public static Refusal Missing(string what) => new(RefusalKind.NotFound, $"There is no {what}.");

    public static Refusal Stage(string detail, string allowed) => new(RefusalKind.WrongStage, detail, null, allowed);
}

/// <summary>A value or the reason there is none.</summary>
public readonly record struct Result<T>
{
    private readonly T? value;

    private Result(T? value, Refusal? refusal) => (this.value, Refusal) = (value, refusal);

    public Refusal? Refusal { get; }

    public bool IsRefused => Refusal is not null;

    public T Value => Refusal is null ? value! : throw new InvalidOperationException(Refusal.Detail);

    public static implicit operator Result<T>(T value) => new(value, null);

    public static implicit operator Result<T>(Refusal refusal) => new(default, refusal);

    public Result<TNext> Then<TNext>(Func<T, Result<TNext>> next) => Refusal is { } refusal ? refusal : next(value!);
}
