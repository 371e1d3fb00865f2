using System.Net;

namespace ReedShop.Tests.Vouchers;

public sealed class VoucherPageFacts
{
    private const string Address = "/bench/vouchers";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_voucher_is_made_shown_and_ended()
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);

        var made = await owner.Post(Address, Form());

        Assert.Equal(HttpStatusCode.SeeOther, made.StatusCode);
        var page = WebUtility.HtmlDecode(await owner.Read(Address));
        string[] told =
        [
            ">SPRING-27</th>",
            "<td>12.5 in 100</td>",
            "<td>Wed 31 March 2027</td>",
            ">0 of 20</td>",
            "<td>€10.00</td>",
        ];
        Assert.All(told, cell => Assert.Contains(cell, page, StringComparison.Ordinal));
        var again = await owner.Post(Address, Form());
        Assert.Equal(HttpStatusCode.Conflict, again.StatusCode);
        Assert.Contains(
            "There is a voucher SPRING-27 already.",
            await again.Content.ReadAsStringAsync(Cancel),
            StringComparison.Ordinal
        );

        await owner.PostFrom(Address, $"{Address}/end", ("ended", "SPRING-27"));

        Assert.DoesNotContain("End it", await owner.Read(Address), StringComparison.Ordinal);
        var voucher = (await shop.GetJson("/api/vouchers"))[0];
        Assert.Equal("ended", voucher.GetProperty("status").GetString());
        Assert.Equal(0.125, voucher.GetProperty("share").GetDouble());
    }

    [Theory]
    [InlineData("code", "abc", "code", "The code cannot be used.")]
    [InlineData("code", "two words", "code", "The code cannot be used.")]
    [InlineData("share", "lots", "share", "“lots” is not a number.")]
    [InlineData("share", "101", "share", "The share cannot be used.")]
    [InlineData("share", "0", "share", "The share cannot be used.")]
    [InlineData("share", "", "share", "It is either a share of the reeds' price or an amount.")]
    [InlineData("amount", "5", "share", "It is either a share of the reeds' price or an amount.")]
    [InlineData("amount", "5.001", "amount", "“5.001” is not an amount.")]
    [InlineData("lastDay", "soon", "lastDay", "“soon” is not a day.")]
    [InlineData("lastDay", "2027-02-28", "lastDay", "The last day has passed.")]
    [InlineData("mostUses", "-1", "mostUses", "“-1” is not a number.")]
    [InlineData("mostUses", "0", "mostUses", "So many uses cannot be set.")]
    [InlineData("leastReeds", "ten", "leastReeds", "“ten” is not an amount.")]
    public async Task What_cannot_be_used_is_said_beside_its_field_and_nothing_typed_is_lost(
        string field,
        string typed,
        string noted,
        string says
    )
    {
        await using var shop = await ShopHost.Start();
        using var owner = await Visitor.Owner(shop);
        var form = Form().ToDictionary(part => part.Name, part => part.Value);
        form[field] = typed;

        var answer = await owner.Post(Address, [.. form.Select(part => (part.Key, part.Value))]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Contains($"id=\"{noted}-note\"", page, StringComparison.Ordinal);
        Assert.Contains(says, page, StringComparison.Ordinal);
        Assert.Contains("Accepted:", page, StringComparison.Ordinal);
        Assert.All(form.Values, text => Assert.Contains($"value=\"{text}\"", page, StringComparison.Ordinal));
        Assert.Equal(0, (await shop.GetJson("/api/vouchers")).GetArrayLength());
    }

    [Fact]
    public async Task Vouchers_are_the_owners_and_an_unknown_one_cannot_be_ended()
    {
        await using var shop = await ExampleReeds.NewShop();

        var guest = await shop.Guest.GetAsync("/api/vouchers", Cancel);
        Assert.Equal(HttpStatusCode.Unauthorized, guest.StatusCode);
        var unknown = await shop.Send(HttpMethod.Post, "/api/vouchers/NONE/end", new { });
        await ShopHost.ReadProblem(unknown, HttpStatusCode.NotFound, "not-found");
        var foreign = await shop.Send(
            HttpMethod.Post,
            "/api/vouchers",
            new { code = "POUND", amount = new { amount = 100, currency = "GBP" } }
        );
        var problem = await ShopHost.ReadProblem(foreign, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("amount.currency", problem.GetProperty("field").GetString());
    }

    private static (string Name, string Value)[] Form() =>
        [("code", "Spring-27"), ("share", "12.5"), ("lastDay", "2027-03-31"), ("mostUses", "20"), ("leastReeds", "10")];
}
