using System.Globalization;
using ReedShop.Platform.Storage;
using Serilog;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace ReedShop.Platform.Logging;

public static class LoggingSetup
{
    private const int DaysKept = 31;

    /// <summary>Lines to read on the console, JSON to search in the data folder; `Serilog__MinimumLevel__Default` changes how much.</summary>
    public static void AddLogs(this WebApplicationBuilder builder) =>
        builder.Services.AddSerilog(
            (services, logs) =>
                logs
                    .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
                    .MinimumLevel.Override("Microsoft.Hosting.Lifetime", LogEventLevel.Information)
                    .MinimumLevel.Override("Microsoft.AspNetCore.DataProtection", LogEventLevel.Error)
                    .ReadFrom.Configuration(builder.Configuration)
                    .Enrich.FromLogContext()
                    .Enrich.With<LinkMask>()
                    .WriteTo.Console(
                        outputTemplate: "{Timestamp:HH:mm:ss} {Level:u3} {Message:lj}{NewLine}{Exception}",
                        formatProvider: CultureInfo.InvariantCulture
                    )
                    .WriteTo.File(
                        new CompactJsonFormatter(),
                        Path.Combine(services.GetRequiredService<DataFolder>().Logs, "reedshop-.json"),
                        rollingInterval: RollingInterval.Day,
                        retainedFileCountLimit: DaysKept
                    ),
            preserveStaticLogger: true
        );

    public static void UseRequestLogs(this IApplicationBuilder app) =>
        app.UseSerilogRequestLogging(options =>
        {
            options.Logger = app.ApplicationServices.GetRequiredService<Serilog.ILogger>();
            options.GetLevel = (http, _, fault) => fault is null ? Level(http) : LogEventLevel.Error;
        });

    /// <summary>Who is told that the shop is busy met no fault; a shop that is not ready has one.</summary>
    private static LogEventLevel Level(HttpContext http)
    {
        var isHealth = http.Request.Path.StartsWithSegments("/health", StringComparison.Ordinal);
        return http.Response.StatusCode switch
        {
            StatusCodes.Status503ServiceUnavailable when !isHealth => LogEventLevel.Warning,
            >= StatusCodes.Status500InternalServerError => LogEventLevel.Error,
            _ when isHealth => LogEventLevel.Debug,
            _ => LogEventLevel.Information,
        };
    }
}
