namespace ReedShop.Orders;

/// <summary>Nights of drying that the reeds of an order have behind them and before them, by the batch farthest behind.</summary>
public sealed record NightsView(int Done, int ToGo);

/// <summary>Null where no batch makes reeds for the order. The workshop knows the batches.</summary>
public delegate Task<NightsView?> OrderNights(string order, CancellationToken cancel);
