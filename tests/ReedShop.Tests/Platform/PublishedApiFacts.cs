using System.Text.Json;
using System.Text.Json.Nodes;

namespace ReedShop.Tests.Platform;

/// <summary>The API as it is served against the published copy, docs/openapi.json.</summary>
public sealed class PublishedApiFacts
{
    private const string RenewVariable = "REEDSHOP_RENEW_OPENAPI";

    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };

    [Fact]
    public async Task Nothing_that_was_published_is_gone_or_asks_for_more()
    {
        await using var shop = await ShopHost.Start();
        Assert.Empty(Breaks(Published(), await Served(shop)));
    }

    [Fact]
    public async Task The_published_copy_is_up_to_date()
    {
        await using var shop = await ShopHost.Start();
        var served = (await Served(shop)).ToJsonString(Indented) + "\n";
        if (Environment.GetEnvironmentVariable(RenewVariable) == "1")
        {
            await File.WriteAllTextAsync(PublishedPath(), served, TestContext.Current.CancellationToken);
        }

        Assert.True(
            served == await File.ReadAllTextAsync(PublishedPath(), TestContext.Current.CancellationToken),
            $"docs/openapi.json is behind: run this test with {RenewVariable}=1 and read the difference before committing it."
        );
    }

    [Fact]
    public void A_lost_path_a_lost_member_and_a_new_demand_are_seen()
    {
        var before = Document(
            """{ "paths": { "/a": { "get": {} } }, "components": { "schemas": { "A": { "required": ["x"], "properties": { "x": { "type": "string" }, "y": { "type": "string" } } } } } }"""
        );
        var after = Document(
            """{ "paths": {}, "components": { "schemas": { "A": { "required": ["x", "z"], "properties": { "x": { "type": "integer" }, "z": { "type": "string" } } } } } }"""
        );

        Assert.Equal(
            ["A.x has another type", "A.y is gone", "A.z is demanded", "get /a is gone"],
            Breaks(before, after).Order()
        );
        Assert.Empty(Breaks(before, before));
    }

    private static IEnumerable<string> Breaks(JsonNode before, JsonNode after) =>
        LostOperations(before, after).Concat(Members(before).SelectMany(schema => SchemaBreaks(schema, after)));

    private static IEnumerable<string> LostOperations(JsonNode before, JsonNode after) =>
        from path in before["paths"]!.AsObject()
        from operation in path.Value!.AsObject()
        where after["paths"]![path.Key]?[operation.Key] is null
        select $"{operation.Key} {path.Key} is gone";

    private static IEnumerable<string> SchemaBreaks(KeyValuePair<string, JsonNode?> schema, JsonNode after)
    {
        var now = after["components"]?["schemas"]?[schema.Key];
        if (now is null)
        {
            return [$"{schema.Key} is gone"];
        }

        var lost =
            from member in schema.Value!["properties"]?.AsObject() ?? []
            let there = now["properties"]?[member.Key]
            where there is null || Type(there) != Type(member.Value)
            select $"{schema.Key}.{member.Key} {(there is null ? "is gone" : "has another type")}";
        var demanded = Required(now).Except(Required(schema.Value!)).Select(name => $"{schema.Key}.{name} is demanded");
        return lost.Concat(demanded);
    }

    private static JsonObject Members(JsonNode document) => document["components"]?["schemas"]?.AsObject() ?? [];

    private static string[] Required(JsonNode schema) =>
        [.. (schema["required"]?.AsArray() ?? []).Select(name => name!.GetValue<string>())];

    private static string? Type(JsonNode? schema) => (schema?["type"] ?? schema?["$ref"])?.ToJsonString();

    private static JsonNode Document(string json) => JsonNode.Parse(json)!;

    private static JsonNode Published() => Document(File.ReadAllText(PublishedPath()));

    private static async Task<JsonNode> Served(ShopHost shop)
    {
        var document = Document(
            await shop.Guest.GetStringAsync("/openapi/v1.json", TestContext.Current.CancellationToken)
        );
        document.AsObject().Remove("servers");
        return document;
    }

    private static string PublishedPath()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ReedShop.sln")))
        {
            folder = folder.Parent;
        }

        return Path.Combine(folder!.FullName, "docs", "openapi.json");
    }
}
