using ArchUnitNET.Domain;
using ArchUnitNET.Domain.Extensions;
using ArchUnitNET.Loader;
using ReedShop.Planning;
using ReedShop.Shop;

namespace ReedShop.Tests.House;

/// <summary>Who may use whom. The program itself is read, not its folders.</summary>
public sealed class ArrowFacts
{
    private static readonly Architecture Product = new ArchLoader()
        .LoadAssemblies(typeof(ShopSettings).Assembly, typeof(Strength).Assembly)
        .Build();

    private static readonly string[] Chain =
    [
        "Shop",
        "Catalogue",
        "Cane",
        "Orders",
        "Vouchers",
        "Workshop",
        "Quotes",
        "Payments",
        "Checkout",
    ];

    private static readonly Dictionary<string, string[]> MayUse = Allowed();

    [Fact]
    public void A_capability_uses_only_those_to_its_left()
    {
        var wrong =
            from type in Product.Types
            let room = Capability(type)
            where room is not null && MayUse.ContainsKey(room)
            from target in type.Dependencies.Select(dependency => dependency.Target)
            let to = Capability(target)
            where to is not null && to != room && !MayUse[room].Contains(to)
            select $"{type.FullName} uses {target.FullName}";
        Assert.Empty(wrong.Distinct());
    }

    [Fact]
    public void The_check_of_arrows_sees_the_capabilities()
    {
        var seen = Product.Types.Select(Capability).OfType<string>().Distinct().Order().ToArray();
        Assert.Superset(MayUse.Keys.Where(key => key != "Demo").ToHashSet(), seen.ToHashSet());
        Assert.Contains(
            Product.Types,
            type => Capability(type) == "Checkout" && type.Dependencies.Any(d => Capability(d.Target) == "Orders")
        );
    }

    [Fact]
    public void The_core_uses_nothing_but_the_base_library()
    {
        var packages = typeof(Strength).Assembly.GetReferencedAssemblies().Select(assembly => assembly.Name!);
        Assert.All(packages, name => Assert.StartsWith("System", name, StringComparison.Ordinal));
    }

    [Fact]
    public void Only_stores_and_the_storage_room_see_the_database()
    {
        var wrong =
            from type in Product.Types
            where type.FullName.StartsWith("ReedShop.", StringComparison.Ordinal)
            where !IsStorage(type)
            where
                type.Dependencies.Any(d =>
                    d.Target.FullName.StartsWith("Microsoft.EntityFrameworkCore", StringComparison.Ordinal)
                )
            select type.FullName;
        Assert.Empty(wrong);
    }

    [Fact]
    public void Only_messages_and_the_address_check_see_the_mail_library()
    {
        var wrong =
            from type in Product.Types
            where
                Capability(type) != "Messages"
                && !type.FullName.StartsWith("ReedShop.Platform.EmailAddress", StringComparison.Ordinal)
            where
                type.Dependencies.Any(d =>
                    d.Target.FullName.StartsWith("MailKit", StringComparison.Ordinal)
                    || d.Target.FullName.StartsWith("MimeKit", StringComparison.Ordinal)
                )
            select type.FullName;
        Assert.Empty(wrong);
    }

    [Theory]
    [InlineData("Stripe.")]
    [InlineData("PdfSharp.")]
    public void Only_payments_see_the_libraries_of_Stripe_and_of_PDFs(string library)
    {
        var wrong =
            from type in Product.Types
            where type.FullName.StartsWith("ReedShop.", StringComparison.Ordinal) && Capability(type) != "Payments"
            where type.Dependencies.Any(d => d.Target.FullName.StartsWith(library, StringComparison.Ordinal))
            select type.FullName;
        Assert.Empty(wrong);
        Assert.Contains(
            Product.Types,
            type =>
                Capability(type) == "Payments"
                && type.Dependencies.Any(d => d.Target.FullName.StartsWith(library, StringComparison.Ordinal))
        );
    }

    private static bool IsStorage(IType type) =>
        type.FullName.StartsWith("ReedShop.Platform.Storage", StringComparison.Ordinal)
        || StoreName(type.FullName)
        || type.FullName.Contains("Mapping", StringComparison.Ordinal);

    private static bool StoreName(string fullName) =>
        fullName.Split('+', '/')[0].EndsWith("Store", StringComparison.Ordinal);

    /// <summary>The folder of a type: ReedShop.Orders.Order is of Orders, the core and the base library of none.</summary>
    private static string? Capability(IType type)
    {
        var parts = type.FullName.Split('.');
        return parts is ["ReedShop", var folder, _, ..] && folder is not ("Planning" or "Platform") ? folder : null;
    }

    private static Dictionary<string, string[]> Allowed()
    {
        var allowed = Chain
            .Select((name, index) => (name, left: Chain[..index].Append("Messages").ToArray()))
            .ToDictionary(row => row.name, row => row.left);
        var untilWorkshop = Chain[..(Array.IndexOf(Chain, "Workshop") + 1)].Append("Messages").ToArray();
        foreach (var beside in new[] { "Watch", "Shipping", "Insight", "Reminders", "Search", "Calendar" })
        {
            allowed[beside] = untilWorkshop;
        }

        // The walk through a new shop ends with what it can promise.
        allowed["Opening"] = [.. untilWorkshop, "Quotes"];
        allowed["Messages"] = [];
        return allowed;
    }
}
