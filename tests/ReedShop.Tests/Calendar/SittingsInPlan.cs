namespace ReedShop.Tests.Calendar;

/// <summary>Sittings as the weeks of March 2027 show them, found and moved.</summary>
internal static class SittingsInPlan
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static async Task<string> FirstSitting(ShopHost shop) =>
        (await Sittings(shop)).First(row => row.BatchNumber == "1").Id;

    public static async Task<string> LastSitting(ShopHost shop, string batch) =>
        (await Sittings(shop)).Last(row => row.BatchNumber == batch).Id;

    private static async Task<List<(string Id, string BatchNumber)>> Sittings(ShopHost shop)
    {
        var sittings = new List<(string, string)>();
        foreach (var from in new[] { "2027-03-01", "2027-03-08", "2027-03-15" })
        {
            var week = await shop.GetJson($"/api/week?from={from}");
            sittings.AddRange(
                week.GetProperty("days")
                    .EnumerateArray()
                    .SelectMany(day => day.GetProperty("sittings").EnumerateArray())
                    .Select(s => (s.GetProperty("id").GetString()!, s.GetProperty("batchNumber").GetString()!))
            );
        }

        return sittings;
    }

    public static async Task Move(ShopHost shop, string sitting, string date)
    {
        var week = await shop.Owner.GetAsync("/api/week", Cancel);
        var moved = await shop.Send(
            HttpMethod.Post,
            $"/api/sittings/{sitting}/move",
            new { date },
            ("If-Match", week.Headers.ETag!.ToString())
        );
        await ShopHost.Read(moved);
    }
}
