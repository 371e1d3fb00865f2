using Microsoft.Extensions.Options;
using ReedShop.Orders;
using ReedShop.Platform.Ticks;

namespace ReedShop.Payments;

public static class PaymentsSetup
{
    public static void AddPayments(this IHostApplicationBuilder builder)
    {
        var services = builder.Services;
        services.AddOptions<StripeOptions>().BindConfiguration(StripeOptions.Section).ValidateOnStart();
        services.AddSingleton<IValidateOptions<StripeOptions>, StripeOptionsRules>();
        services.AddHostedService<TestKeyWarning>();
        services.AddOptions<PdfOptions>().BindConfiguration(PdfOptions.Section).ValidateOnStart();
        services.AddSingleton<IValidateOptions<PdfOptions>, PdfOptionsRules>();
        services.AddStripeDesk();
        services.AddScoped<BooksStore>();
        services.AddScoped<CardPayments>();
        services.AddScoped<PaySessions>();
        services.AddScoped<Refunding>();
        services.AddScoped<Disputing>();
        services.AddScoped<SettledOrder>();
        services.AddScoped<Settling>();
        services.AddScoped<Balances>();
        services.AddScoped<OwnerMoney>();
        services.AddScoped<MoneyReader>();
        services.AddSingleton(provider => PdfFonts.Of(provider.GetRequiredService<IOptions<PdfOptions>>().Value.Font));
        services.AddSingleton<PaperPdf>();
        services.AddScoped<MoneyPanels>();
        services.AddScoped<OrderPayUrl>(provider => provider.GetRequiredService<PaySessions>().KnownUrl);
        services.AddScoped<OrderMoneyPanel>(provider => provider.GetRequiredService<MoneyPanels>().Of);
        builder.AddTick<StripeEvents>("work-stripe-events");
        services.AddSingleton<MissedEventsAsked>();
        builder.AddTick<MissedEvents>("fetch-missed-events");
        builder.AddTick<Reconciliation>("reconcile-payments");
        builder.AddTick<BalanceLetters>("ask-for-balances");
        builder.AddTick<ForgetOldEvents>("forget-old-events");
    }

    /// <summary>
    /// One client for as long as the program runs, whose connections are renewed so that a change of Stripe's addresses is
    /// seen. Nothing is logged on the way: what Stripe is asked names sessions.
    /// </summary>
    private static void AddStripeDesk(this IServiceCollection services)
    {
        services
            .AddHttpClient(
                StripeDesk.Wire,
                (provider, wire) =>
                    wire.Timeout = TimeSpan.FromSeconds(
                        provider.GetRequiredService<IOptions<StripeOptions>>().Value.TimeoutSeconds
                    )
            )
            .RemoveAllLoggers()
            .SetHandlerLifetime(Timeout.InfiniteTimeSpan)
            .ConfigurePrimaryHttpMessageHandler(() =>
                new SocketsHttpHandler { PooledConnectionLifetime = TimeSpan.FromMinutes(15) }
            );
        services.AddSingleton<StripeDesk>();
    }
}
