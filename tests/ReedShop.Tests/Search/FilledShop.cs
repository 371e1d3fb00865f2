using ReedShop.Tests.Workshop;

namespace ReedShop.Tests.Search;

/// <summary>A shop with 24 orders that lie ready in the drawer, and batch 1 in two trays.</summary>
public sealed class FilledShop : IAsyncLifetime
{
    public const int Orders = 24;

    public ShopHost Shop { get; private set; } = null!;

    public Visitor Owner { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Shop = await ExampleReeds.NewShop();
        Owner = await Visitor.Owner(Shop);
        await Shop.PostJson(
            "/api/starting-state",
            new
            {
                drawer = new[]
                {
                    new
                    {
                        model = ExampleReeds.Clarinet,
                        strength = 3.5,
                        count = 100,
                    },
                },
                shelf = Array.Empty<object>(),
                batches = Array.Empty<object>(),
                promises = Enumerable
                    .Range(3, Orders - 2)
                    .Select(n => Promise($"Many Buyers {n}", $"many{n}@example.org"))
                    .Prepend(Promise("Åsa Ångström", "aa@example.org"))
                    .Prepend(Promise("João Exemplo", "jo@harbour.example")),
            }
        );
        var batch = await AtTheBench.Start(Shop, 10);
        await Shop.PostJson($"/api/batches/{batch}/split", new { trays = new[] { 6, 4 } });
    }

    public async ValueTask DisposeAsync()
    {
        Owner.Dispose();
        await Shop.DisposeAsync();
    }

    private static object Promise(string buyerName, string buyerEmail) =>
        new
        {
            buyerName,
            buyerEmail,
            address = new
            {
                street = "2 Quay",
                locality = "Harbour",
                postalCode = "1000-002",
                country = "PT",
            },
            lines = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    strength = 3.5,
                    quantity = 1,
                },
            },
            shipBy = "2027-03-29",
        };
}
