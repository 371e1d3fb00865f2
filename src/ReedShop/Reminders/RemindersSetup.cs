using ReedShop.Platform.Ticks;

namespace ReedShop.Reminders;

public static class RemindersSetup
{
    public static void AddReminders(this IHostApplicationBuilder builder)
    {
        builder.AddTick<PlanSweep>("plan-sweep");
        builder.AddTick<MorningReminder>("morning-reminder");
    }
}
