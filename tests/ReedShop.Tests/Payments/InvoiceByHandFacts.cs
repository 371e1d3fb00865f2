using System.Net;
using System.Text.Json;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Tests.Payments;

/// <summary>A shop without cards: invoices, and money that comes and goes by hand.</summary>
public sealed class InvoiceByHandFacts
{
    [Fact]
    public async Task A_refund_of_an_invoice_paid_by_hand_is_paid_back_by_hand()
    {
        await using var shop = await Stocked();
        var order = await OrderByInvoice(shop);
        await shop.PostJson($"/api/orders/{PayingShop.Id(order)}/paid", new { });

        await shop.PostJson($"/api/orders/{PayingShop.Id(order)}/cancel", new { });
        await shop.Tick("reconcile-payments");

        var money = await shop.GetJson($"/api/orders/{PayingShop.Id(order)}/money");
        Assert.Equal(700, PayingShop.Amount(money, "waiting"));
        money = await shop.PostJson(RefundFacts.Address(order, money.GetProperty("refunds")[0], "paid-back"), new { });
        Assert.Equal(700, PayingShop.Amount(money, "refunded"));
        Assert.True(money.GetProperty("balances").GetBoolean());
    }

    [Fact]
    public async Task An_invoice_may_be_written_before_it_is_paid_and_is_settled_by_the_payment_or_taken_off()
    {
        await using var shop = await Stocked();
        var (paid, cancelled) = (await OrderByInvoice(shop), await OrderByInvoice(shop));
        foreach (var order in new[] { paid, cancelled, paid })
        {
            var open = await shop.PostJson($"/api/orders/{PayingShop.Id(order)}/invoice", new { });
            Assert.Equal(700, PayingShop.Amount(open, "owed"));
            Assert.True(Assert.Single(open.GetProperty("papers").EnumerateArray()).GetProperty("isOpen").GetBoolean());
        }

        await shop.PostJson($"/api/orders/{PayingShop.Id(paid)}/paid", new { });
        await shop.PostJson($"/api/orders/{PayingShop.Id(cancelled)}/cancel", new { });

        var settled = await shop.GetJson($"/api/orders/{PayingShop.Id(paid)}/money");
        Assert.Equal((700, 700, 0), Sums(settled));
        var takenOff = await shop.GetJson($"/api/orders/{PayingShop.Id(cancelled)}/money");
        Assert.Equal((0, 700, 0), Sums(takenOff));
        Assert.Equal(700, PayingShop.Amount(takenOff, "credited"));
        Assert.All(
            settled.GetProperty("papers").EnumerateArray().Concat(takenOff.GetProperty("papers").EnumerateArray()),
            paper => Assert.False(paper.GetProperty("isOpen").GetBoolean())
        );
        using var buyer = new Visitor(shop);
        var invoice = await buyer.Read(takenOff.GetProperty("papers")[0].GetProperty("url").GetString()!);
        Assert.DoesNotContain("This is to be paid.", invoice, StringComparison.Ordinal);
        Assert.Contains("This amount need not be paid any more.", invoice, StringComparison.Ordinal);
        Assert.True(takenOff.GetProperty("balances").GetBoolean());
    }

    [Fact]
    public async Task Of_an_order_that_was_cancelled_unpaid_nothing_is_said_to_be_paid()
    {
        await using var shop = await Stocked();
        var order = await OrderByInvoice(shop);
        using var buyer = new Visitor(shop);
        var page = $"/orders/{PayingShop.Id(order)}";
        Assert.Contains("not paid yet", await buyer.Read(page), StringComparison.Ordinal);
        Assert.Contains("not paid yet", await buyer.Read($"{page}/receipt"), StringComparison.Ordinal);

        await shop.PostJson($"/api/orders/{PayingShop.Id(order)}/cancel", new { });

        Assert.DoesNotContain("not paid yet", await buyer.Read(page), StringComparison.Ordinal);
        Assert.DoesNotContain("not paid yet", await buyer.Read($"{page}/receipt"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_owed_of_an_order_cancelled_after_a_part_had_left_is_told_to_buyer_and_maker()
    {
        await using var shop = await Stocked();
        await ExampleReeds.FillHistory(shop);
        var quote = await shop.PostJson(
            "/api/quotes",
            new
            {
                lines = new[]
                {
                    new
                    {
                        model = ExampleReeds.Clarinet,
                        strength = 3.5,
                        quantity = 12,
                    },
                },
                partsAreFine = true,
            }
        );
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        await shop.PostJson($"/api/orders/{PayingShop.Id(order)}/invoice", new { });
        await shop.PostJson($"/api/orders/{PayingShop.Id(order)}/ship", new { part = true });

        await shop.PostJson($"/api/orders/{PayingShop.Id(order)}/cancel", new { });

        var owed = PayingShop.Amount(await shop.GetJson($"/api/orders/{PayingShop.Id(order)}/money"), "owed");
        Assert.Equal(9 * 350, owed);
        var said = Words.Money(new Money(owed, "EUR"));
        using var owner = await Visitor.Owner(shop);
        var page = WebUtility.HtmlDecode(await owner.Read($"/orders/{PayingShop.Id(order)}"));
        Assert.Contains($"Still to be paid: {said}.", page, StringComparison.Ordinal);
        var money = $"/bench/orders/{PayingShop.Id(order)}/money";
        Assert.Contains(
            $"{said} is still to be paid.",
            WebUtility.HtmlDecode(await owner.Read(money)),
            StringComparison.Ordinal
        );
        await owner.PostFrom(money, $"/bench/orders/{PayingShop.Id(order)}/paid");
        Assert.Equal(0, PayingShop.Amount(await shop.GetJson($"/api/orders/{PayingShop.Id(order)}/money"), "owed"));
    }

    private static (long Captured, long Invoiced, long Owed) Sums(JsonElement money) =>
        (PayingShop.Amount(money, "captured"), PayingShop.Amount(money, "invoiced"), PayingShop.Amount(money, "owed"));

    private static async Task<JsonElement> OrderByInvoice(ShopHost shop)
    {
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        return await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
    }

    /// <summary>Reeds enough that orders are ready at once.</summary>
    private static async Task<ShopHost> Stocked()
    {
        var shop = await ExampleReeds.NewShop();
        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                count = 9,
            }
        );
        return shop;
    }
}
