using ReedShop.Planning.Routes;
using ReedShop.Platform;

namespace ReedShop.Catalogue;

/// <summary>Refuses a change of a route that work under way could not survive. The workshop knows the work.</summary>
public delegate Task<Refusal?> RouteGuard(string model, ReedRoute before, ReedRoute after, CancellationToken cancel);
