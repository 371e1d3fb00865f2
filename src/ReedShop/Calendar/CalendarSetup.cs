using ReedShop.Platform.Ticks;

namespace ReedShop.Calendar;

public static class CalendarSetup
{
    public static void AddCalendar(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<CalendarStore>();
        builder.Services.AddScoped<CalendarReader>();
        builder.Services.AddScoped<CalendarLinks>();
        builder.AddTick<CalendarUpkeep>("keep-calendar");
    }
}
