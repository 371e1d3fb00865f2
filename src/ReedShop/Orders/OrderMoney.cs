using Microsoft.AspNetCore.Components;

namespace ReedShop.Orders;

/// <summary>Where an order can be paid now; null where nothing is to be paid. The payments know.</summary>
public delegate Task<string?> OrderPayUrl(string order, CancellationToken cancel);

/// <summary>What the page of an order shows of its money; null where there is nothing to show.</summary>
public delegate Task<RenderFragment?> OrderMoneyPanel(OrderView order, CancellationToken cancel);
