using System.Text.Json;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Http;

namespace ReedShop.Platform.Storage;

/// <summary>Keeps a value that is always read whole, such as a route or a week of hours, as JSON in one column.</summary>
public static class JsonColumn
{
    public static PropertyBuilder<T> AsJson<T>(this PropertyBuilder<T> property)
    {
        var comparer = new ValueComparer<T>(
            (left, right) => Write(left) == Write(right),
            value => StringComparer.Ordinal.GetHashCode(Write(value)),
            value => Read<T>(Write(value))
        );
        property.HasConversion(value => Write(value), text => Read<T>(text), comparer);
        return property;
    }

    private static string Write<T>(T value) => JsonSerializer.Serialize(value, ShopJson.Options);

    private static T Read<T>(string text) => JsonSerializer.Deserialize<T>(text, ShopJson.Options)!;
}
