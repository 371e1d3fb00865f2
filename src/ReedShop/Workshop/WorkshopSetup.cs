using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Yields;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Workshop;

public static class WorkshopSetup
{
    public static void AddWorkshop(this IHostApplicationBuilder builder)
    {
        var services = builder.Services;
        services.AddScoped<BatchStore>();
        services.AddScoped<RouteGuard>(provider => new RoutesInUse(provider.GetRequiredService<BatchStore>()).Fault);
        services.AddScoped<NightsOfOrder>();
        services.AddScoped<OrderNights>(provider => provider.GetRequiredService<NightsOfOrder>().Read);
        services.AddScoped<SittingsOnDays>();
        services.AddScoped<SittingsStanding>(provider => provider.GetRequiredService<SittingsOnDays>().Between);
        services.AddScoped<StockStore>();
        services.AddScoped<PlanStore>();
        services.AddScoped<PastStore>();
        services.AddScoped<MarkerStore>();
        services.AddScoped<MarkerCommands>();
        services.AddScoped<HistoryImport>();
        services.AddSingleton<LastAnswer<EstimatesKey, YieldEstimates>>();
        services.AddScoped<EstimatesReader>();
        services.AddSingleton<LastAnswer<HazardsKey, BenchHazards>>();
        services.AddScoped<HazardsReader>();
        services.AddScoped<PastEvenings>();
        services.AddScoped<FactsReader>();
        services.AddScoped<BatchReader>();
        services.AddScoped<WholeStoryReader>();
        services.AddScoped<WeekReader>();
        services.AddScoped<Furnishing>();
        services.AddScoped<DayReader>();
        services.AddScoped<TodayReader>();
        services.AddScoped<OrderBookReader>();
        services.AddScoped<BenchPages>();
        services.AddScoped<Bench>();
        services.AddScoped<BatchCommands>();
        services.AddScoped<StartingBatches>();
        services.AddScoped<Recording>();
        services.AddScoped<Corrections>();
        services.AddScoped<DampNights>();
        services.AddScoped<Grading>();
        services.AddScoped<Trays>();
        services.AddScoped<HistoryImport>();
        services.AddScoped<SittingMoves>();
        services.AddScoped<Stocktaking>();
        services.AddScoped<ShelfLevels>();
        services.AddScoped<StartingState>();
        services.AddScoped<StartingCommands>();
        services.AddSingleton<StateShelf>();
        services.AddScoped<StateReader>();
        services.AddScoped<MakeUp>();
        services.AddScoped<Replans>();
        services.AddHostedService<ReplanWorker>();
        services.AddScoped<OutlookStore>();
        services.AddScoped<OutlookReader>();
        services.AddSingleton<OutlookMark>();
        services.AddSingleton<OutlookSignal>();
        services.AddScoped<Outlooks>();
        services.AddHostedService<OutlookWorker>();
    }

    public static void MapWorkshop(this IEndpointRouteBuilder routes)
    {
        routes.MapBatches();
        routes.MapPlan();
        routes.MapStock();
        routes.MapStartingState();
        routes.MapStartingPages();
        routes.MapHistoryApi();
        routes.MapMarkers();
        routes.MapWeekPages();
        routes.MapBatchPages();
        routes.MapStockPages();
        routes.MapOrderBookPages();
        routes.MapHistoryPages();
    }
}
