using System.Collections;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using ReedShop.Planning;

namespace ReedShop.Platform.Http;

/// <summary>How the shop reads and writes JSON: strict on the way in, camel case, strengths as numbers, instants in Z.</summary>
public static class ShopJson
{
    public static JsonSerializerOptions Options { get; } = Configure(new JsonSerializerOptions());

    public static JsonSerializerOptions Configure(JsonSerializerOptions options)
    {
        options.PropertyNameCaseInsensitive = false;
        options.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.NumberHandling = JsonNumberHandling.Strict;
        options.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
        options.RespectNullableAnnotations = true;
        options.RespectRequiredConstructorParameters = true;
        options.AllowDuplicateProperties = false;
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false));
        options.Converters.Add(new StrengthJson());
        options.Converters.Add(new InstantJson());
        options.Converters.Add(new ClockTimeJson());
        options.TypeInfoResolver = (options.TypeInfoResolver ?? new DefaultJsonTypeInfoResolver()).WithAddedModifier(
            RefuseEmptyMembers
        );
        return options;
    }

    /// <summary>The serializer looks for nulls in members, but not within lists and maps.</summary>
    private static void RefuseEmptyMembers(JsonTypeInfo type)
    {
        if (type.Kind != JsonTypeInfoKind.Object)
        {
            return;
        }

        var collections = type
            .Properties.Where(p => p.Get is not null && p.PropertyType != typeof(string))
            .Where(p => typeof(IEnumerable).IsAssignableFrom(p.PropertyType))
            .ToArray();
        type.OnDeserialized = read =>
        {
            var empty = collections.FirstOrDefault(member => HasEmpty(member.Get!(read)));
            if (empty is not null)
            {
                throw new JsonException($"{empty.Name} has an empty (null) member: leave it out.");
            }
        };
    }

    private static bool HasEmpty(object? collection) =>
        ((collection as IDictionary)?.Values ?? collection as IEnumerable)?.Cast<object?>().Contains(null) ?? false;

    private sealed class StrengthJson : JsonConverter<Strength>
    {
        public override Strength Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            reader.TokenType == JsonTokenType.Number
            && reader.TryGetDecimal(out var value)
            && Strength.TryFrom(value, out var strength)
                ? strength
                : throw new JsonException($"Send {Strength.Allowed}.");

        public override void Write(Utf8JsonWriter writer, Strength value, JsonSerializerOptions options) =>
            writer.WriteNumberValue(value.Value);
    }

    /// <summary>Instants are UTC and end in Z, whatever the kind a database handed back.</summary>
    private sealed class InstantJson : JsonConverter<DateTime>
    {
        public override DateTime Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            reader.GetString() is { } text
            && text.EndsWith('Z')
            && DateTime.TryParse(
                text,
                System.Globalization.CultureInfo.InvariantCulture,
                System.Globalization.DateTimeStyles.AdjustToUniversal,
                out var instant
            )
                ? instant
                : throw new JsonException("Send an instant in UTC that ends in Z, such as 2027-03-01T18:30:00Z.");

        public override void Write(Utf8JsonWriter writer, DateTime value, JsonSerializerOptions options) =>
            writer.WriteStringValue(
                value.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture)
            );
    }

    /// <summary>Local clock times are read off a clock on the wall: hours and minutes.</summary>
    private sealed class ClockTimeJson : JsonConverter<TimeOnly>
    {
        private const string Format = "HH:mm";

        public override TimeOnly Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            reader.TokenType == JsonTokenType.String
            && TimeOnly.TryParseExact(
                reader.GetString(),
                Format,
                System.Globalization.CultureInfo.InvariantCulture,
                System.Globalization.DateTimeStyles.None,
                out var time
            )
                ? time
                : throw new JsonException("Send a local time of hours and minutes, such as \"18:30\".");

        public override void Write(Utf8JsonWriter writer, TimeOnly value, JsonSerializerOptions options) =>
            writer.WriteStringValue(value.ToString(Format, System.Globalization.CultureInfo.InvariantCulture));
    }
}
