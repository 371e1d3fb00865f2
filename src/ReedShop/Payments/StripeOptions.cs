using Microsoft.Extensions.Options;
using ReedShop.Platform;

namespace ReedShop.Payments;

/// <summary>
/// The account that takes cards, `ReedShop__Stripe__SecretKey` and so on, from the environment or user secrets. Without a
/// key the shop sends invoices. No value of this class is ever logged.
/// </summary>
public sealed class StripeOptions
{
    public const string Section = $"{ReedShopOptions.Section}:Stripe";

    public const string UsualApiBase = "https://api.stripe.com";

    /// <summary>Begins with sk_ or rk_, and says after that whether it is for tests.</summary>
    public string? SecretKey { get; set; }

    /// <summary>What Stripe signs its webhooks with; begins with whsec_.</summary>
    public string? WebhookSecret { get; set; }

    /// <summary>Where Stripe is asked; another place only with a test key, so that a live one is never sent there.</summary>
    public string ApiBase { get; set; } = UsualApiBase;

    public int TimeoutSeconds { get; set; } = 20;

    /// <summary>How often a request that got no clear answer is repeated at once, under the same idempotency key.</summary>
    public int Repeats { get; set; } = 1;

    public bool IsOn => !string.IsNullOrEmpty(SecretKey);

    public bool IsTest => IsOn && SecretKey!.Contains("_test_", StringComparison.Ordinal);
}

internal sealed class StripeOptionsRules(IOptions<ReedShopOptions> shop) : IValidateOptions<StripeOptions>
{
    private static readonly string[] KeyStarts = ["sk_test_", "sk_live_", "rk_test_", "rk_live_"];

    public ValidateOptionsResult Validate(string? name, StripeOptions options) =>
        Fault(options) is { } fault ? ValidateOptionsResult.Fail(fault) : ValidateOptionsResult.Success;

    private string? Fault(StripeOptions options) =>
        !options.IsOn
            ? string.IsNullOrEmpty(options.WebhookSecret)
                ? null
                : "ReedShop__Stripe__WebhookSecret is set, so set ReedShop__Stripe__SecretKey too, or neither."
            : !KeyStarts.Any(start => options.SecretKey!.StartsWith(start, StringComparison.Ordinal))
                ? $"ReedShop__Stripe__SecretKey must be a secret or restricted key: it begins with {string.Join(", ", KeyStarts)}."
                : options.WebhookSecret?.StartsWith("whsec_", StringComparison.Ordinal) != true
                    ? "ReedShop__Stripe__WebhookSecret must be the signing secret of the webhook; it begins with whsec_."
                    : !Uri.TryCreate(options.ApiBase, UriKind.Absolute, out var api)
                    || api.Scheme is not ("http" or "https")
                        ? "ReedShop__Stripe__ApiBase must be a whole address, or be left out."
                        : options.ApiBase != StripeOptions.UsualApiBase && !options.IsTest
                            ? "ReedShop__Stripe__ApiBase may be set with a test key only: leave it out."
                            : !options.IsTest
                            && shop.Value.PublicAddress?.StartsWith("https://", StringComparison.OrdinalIgnoreCase)
                                != true
                                ? "ReedShop__PublicAddress must be set, with https, before live cards are taken: buyers come back to it."
                                : options.TimeoutSeconds is < 1 or > 80
                                    ? "ReedShop__Stripe__TimeoutSeconds must be 1 to 80, or be left out."
                                    : options.Repeats is < 0 or > 3
                                        ? "ReedShop__Stripe__Repeats must be 0 to 3, or be left out."
                                        : null;
}

/// <summary>Says at every start that no money moves, where that is so.</summary>
internal sealed partial class TestKeyWarning(IOptions<StripeOptions> options, ILogger<TestKeyWarning> log)
    : IHostedService
{
    public Task StartAsync(CancellationToken cancellationToken)
    {
        if (options.Value.IsTest)
        {
            Warn();
        }

        return Task.CompletedTask;
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "TEST KEYS: cards are taken with test keys of Stripe. No money moves. Orders paid so are not paid for."
    )]
    private partial void Warn();
}
