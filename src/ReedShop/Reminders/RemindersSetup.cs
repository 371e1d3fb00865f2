using ReedShop.Messages;
using ReedShop.Platform.Ticks;

namespace ReedShop.Reminders;

public static class RemindersSetup
{
    public static void AddReminders(this IHostApplicationBuilder builder)
    {
        var services = builder.Services;
        services.AddScoped<LetterStore>();
        services.AddScoped<MakersLetters>();
        services.AddScoped<QuietHours>();
        services.AddScoped<QuietNow>(provider => provider.GetRequiredService<QuietHours>().AreNow);
        builder.AddTick<PlanSweep>("plan-sweep");
        builder.AddTick<MorningReminder>("morning-reminder");
        builder.AddTick<EveningQuestion>("evening-question");
        builder.AddTick<NewOrders>("new-orders");
        builder.AddTick<UnpaidOrders>("unpaid-orders");
        builder.AddTick<LowCane>("low-cane");
        builder.AddTick<NotDelivered>("not-delivered");
    }

    public static void MapReminders(this IEndpointRouteBuilder routes)
    {
        routes.MapLettersPages();
        routes.MapStopPages();
        routes.MapRecordLinks();
    }
}
