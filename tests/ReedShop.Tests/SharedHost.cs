namespace ReedShop.Tests;

/// <summary>One host for the facts of a class that leave no traces in each other's way.</summary>
public sealed class SharedHost : IAsyncLifetime
{
    public ShopHost Shop { get; private set; } = null!;

    public async ValueTask InitializeAsync() => Shop = await ShopHost.Start();

    public ValueTask DisposeAsync() => Shop.DisposeAsync();
}
