using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Http;

namespace ReedShop.Platform.Storage;

/// <summary>Keeps a value that is always read whole, such as a route or a week of hours, as JSON in one column.</summary>
public static class JsonColumn
{
    /// <summary>What is missing is written as null, because a column is read back as strictly as a request.</summary>
    private static readonly JsonSerializerOptions Options = new(ShopJson.Options)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.Never,
    };

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

    private static string Write<T>(T value) => JsonSerializer.Serialize(value, Options);

    private static T Read<T>(string text) => JsonSerializer.Deserialize<T>(text, Options)!;
}
