using Hangfire;
using Hangfire.Dashboard;
using ReedShop.Platform.Http;

namespace ReedShop.Platform.Ticks;

/// <summary>
/// The job library's own page, for the owner's cookie alone. The library asks for a configuration of the whole process
/// first; what it needs is registered here instead, so that two shops in one process do not share it.
/// </summary>
internal static class JobsPage
{
    private const string Address = SecurityHeaders.JobsPath;

    public static void AddJobsPage(this IServiceCollection services)
    {
        services.AddSingleton<IGlobalConfiguration>(GlobalConfiguration.Configuration);
        services.AddSingleton(DashboardRoutes.Routes);
    }

    public static void MapJobs(this IEndpointRouteBuilder routes) =>
        routes
            .MapHangfireDashboard(
                Address,
                new DashboardOptions
                {
                    // The policy of the address decides; the library's own filter would let in whoever sits at the server.
                    Authorization = [],
                    AppPath = "/bench/week",
                    DashboardTitle = "Jobs",
                    DisplayStorageConnectionString = false,
                    DisplayNameFunc = (_, job) => job.Args is [string tick, ..] ? tick : job.Method.Name,
                    FaviconPath = "/favicon.svg",
                },
                routes.ServiceProvider.GetRequiredService<JobStorage>()
            )
            .RequireAuthorization(Access.OwnerCookie)
            .ExcludeFromDescription();
}
