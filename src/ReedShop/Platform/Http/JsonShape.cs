using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using System.Text.RegularExpressions;
using ReedShop.Planning;

namespace ReedShop.Platform.Http;

/// <summary>Says in words what a place in a JSON body takes, so that who sent something else learns what to send.</summary>
public sealed partial class JsonShape(JsonSerializerOptions options)
{
    /// <summary>What may stand at a place such as `$.lines[0].strength` of a body of this type.</summary>
    public string At(Type body, string path)
    {
        var here = body;
        foreach (Match segment in Segment().Matches(path))
        {
            var info = options.GetTypeInfo(here);
            var next = segment.Groups["name"] is { Success: true, Value: var name }
                ? info.Properties.FirstOrDefault(member => member.Name == name)?.PropertyType ?? info.ElementType
                : info.ElementType;
            if (next is null)
            {
                break;
            }

            here = next;
        }

        return Words(here);
    }

    private string Words(Type type)
    {
        var plain = Nullable.GetUnderlyingType(type) ?? type;
        return plain.IsEnum
                ? $"one of {string.Join(", ", Enum.GetNames(plain).Select(JsonNamingPolicy.CamelCase.ConvertName))}"
            : plain == typeof(Strength) ? Strength.Allowed
            : plain == typeof(bool) ? "true or false"
            : plain == typeof(string) ? "text"
            : plain == typeof(int) || plain == typeof(long) ? "a whole number"
            : plain == typeof(double) || plain == typeof(decimal) ? "a number"
            : plain == typeof(DateOnly) ? "a date such as 2027-03-01"
            : plain == typeof(TimeOnly) ? "a local time such as 18:30"
            : plain == typeof(DateTime) ? "an instant in UTC such as 2027-03-01T18:30:00Z"
            : Structure(plain);
    }

    private string Structure(Type type)
    {
        var info = options.GetTypeInfo(type);
        return info.Kind switch
        {
            JsonTypeInfoKind.Enumerable => $"a list, each item {Words(info.ElementType!)}",
            JsonTypeInfoKind.Dictionary => $"an object, each member {Words(info.ElementType!)}",
            JsonTypeInfoKind.Object =>
                $"an object with {string.Join(", ", info.Properties.Where(IsTaken).Select(member => member.Name))}",
            _ => "another value",
        };
    }

    private static bool IsTaken(JsonPropertyInfo member) =>
        member.Set is not null || member.AssociatedParameter is not null;

    [GeneratedRegex(
        @"\.(?<name>[^.\[\]]+)|\['(?<name>[^']+)'\]|\[\d+\]",
        RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking
    )]
    private static partial Regex Segment();
}
