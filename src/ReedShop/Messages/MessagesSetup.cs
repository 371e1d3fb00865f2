using Microsoft.Extensions.Options;
using ReedShop.Platform.Ticks;

namespace ReedShop.Messages;

public static class MessagesSetup
{
    public static void AddMessages(this IHostApplicationBuilder builder)
    {
        var services = builder.Services;
        services.AddOptions<MailOptions>().BindConfiguration(MailOptions.Section).ValidateOnStart();
        services.AddSingleton<IValidateOptions<MailOptions>, MailOptionsRules>();
        services.AddSingleton<SmtpCarrier>();
        services.AddSingleton<FolderCarrier>();
        services.AddSingleton<ICarrier>(provider =>
            provider.GetRequiredService<IOptions<MailOptions>>().Value.HasServer
                ? provider.GetRequiredService<SmtpCarrier>()
                : provider.GetRequiredService<FolderCarrier>()
        );
        builder.AddTick<Delivery>("deliver-messages");
    }

    public static void MapMessages(this IEndpointRouteBuilder routes)
    {
        routes.MapMessagesApi();
        routes.MapUndeliveredPages();
    }
}
