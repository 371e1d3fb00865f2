using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Payments;

internal static class BookChange
{
    /// <summary>Changes the money of one order in a transaction of its own; the plan is not touched.</summary>
    public static Task<Result<T>> OnBooks<T>(
        this FactsGate gate,
        string orderId,
        Func<OrderBooks, IServiceProvider, ShopSettings, Result<T>> change,
        CancellationToken cancel
    ) => gate.OnBooks(orderId, (books, services, shop, _) => Task.FromResult(change(books, services, shop)), cancel);

    /// <summary>The same for a change that has to look something up in its turn.</summary>
    public static Task<Result<T>> OnBooks<T>(
        this FactsGate gate,
        string orderId,
        Func<OrderBooks, IServiceProvider, ShopSettings, CancellationToken, Task<Result<T>>> change,
        CancellationToken cancel
    ) =>
        gate.Write<T>(
            async (services, stop) =>
            {
                if (await services.GetRequiredService<OrderStore>().Find(orderId, stop) is not { } order)
                {
                    return OrderStore.Missing;
                }

                var shop = await services.GetRequiredService<ShopStore>().Get(stop);
                var books = await services.GetRequiredService<BooksStore>().Open(order, shop, stop);
                return await change(books, services, shop, stop);
            },
            cancel
        );
}
