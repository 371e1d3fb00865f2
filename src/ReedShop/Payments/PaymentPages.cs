using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Payments;

public static class PaymentPages
{
    /// <summary>The owner's page of all money.</summary>
    public const string Money = "/bench/money";

    private const string Orders = "/bench/orders";

    public static void MapPaymentPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/orders/{id}/paid", ComeBack).ExcludeFromDescription();
        routes.MapPost("/orders/{id}/pay", PayTheRest).ExcludeFromDescription();
        routes.MapPapers();
        var owner = routes.MapGroup("").RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        owner.MapPost(Orders + "/{id}/paid", MarkPaid);
        owner.MapGet(Money, ShowAll);
        owner.MapGet(Orders + "/{id}/money", ShowOne);
        owner.MapPost(Orders + "/{id}/invoice", WriteInvoice);
        owner.MapPost(Orders + "/{id}/refunds", GiveBack);
        owner.MapPost(Orders + "/{id}/refunds/{refund}", OnRefund);
    }

    /// <summary>
    /// Stripe sends the buyer back here. It is the one page that is read and may write: what it writes is what Stripe says
    /// anyway, and would stand there a minute later without it.
    /// </summary>
    private static async Task<IResult> ComeBack(string id, Settling settling, CancellationToken cancel)
    {
        await settling.SettleOrder(id, cancel);
        return Pages.Go($"/orders/{id}");
    }

    /// <summary>
    /// Opens a session for the rest of the price. The buyer goes on from the page of the order by a plain link: a form that
    /// is sent on to another host is stopped by the policy of our own pages (form-action 'self').
    /// </summary>
    private static async Task<IResult> PayTheRest(
        string id,
        IFormCollection _,
        Balances balances,
        CancellationToken cancel
    )
    {
        var asked = await balances.Ask(id, cancel);
        return asked.Refusal is { } refusal ? Pages.Refuse(refusal, $"/orders/{id}") : Pages.Go($"/orders/{id}#money");
    }

    private static async Task<IResult> MarkPaid(
        string id,
        IFormCollection _,
        OwnerMoney money,
        CancellationToken cancel
    )
    {
        var paid = await money.MarkPaid(id, VersionChecks.None, cancel);
        return paid.Refusal is { } refusal ? Pages.Refuse(refusal, Orders, Orders) : Pages.Go(Orders);
    }

    private static async Task<IResult> ShowAll(MoneyReader reader, CancellationToken cancel) =>
        Pages.Show<MoneyOverviewPage>(new { Overview = await reader.Read(cancel) });

    private static Task<IResult> ShowOne(string id, OwnerMoney money, OrderStore orders, CancellationToken cancel) =>
        ShowAgain(id, null, money, orders, cancel);

    private static async Task<IResult> ShowAgain(
        string id,
        Refusal? refusal,
        OwnerMoney money,
        OrderStore orders,
        CancellationToken cancel
    )
    {
        var view = await money.Look(id, cancel);
        if (view.Refusal is { } missing)
        {
            return Pages.Refuse(missing, Money, Money);
        }

        var order = (await orders.Find(id, cancel))!;
        var byHand = await money.ByHand(order, cancel);
        return Pages.Show<OrderMoneyPage>(
            new
            {
                Id = id,
                order.BuyerName,
                MayInvoice = order is { PaysBeforeShipping: false, PaidUtc: null, Stage: not OrderStage.Cancelled }
                    && view.Value.Owed.Amount == 0,
                View = view.Value,
                ByHand = byHand,
                Refusal = refusal,
            },
            refusal
        );
    }

    private static async Task<IResult> WriteInvoice(
        string id,
        IFormCollection _,
        OwnerMoney money,
        CancellationToken cancel
    )
    {
        var written = await money.WriteInvoice(id, cancel);
        var page = $"{Orders}/{id}/money";
        return written.Refusal is { } refusal ? Pages.Refuse(refusal, page, Money) : Pages.Go(page);
    }

    private static async Task<IResult> GiveBack(
        string id,
        IFormCollection form,
        OwnerMoney money,
        OrderStore orders,
        CancellationToken cancel
    )
    {
        var currency = (await orders.Find(id, cancel))?.Currency ?? "";
        var given = Platform.Http.Money.TryParse(form.Text("amount"), currency, out var amount)
            ? await money.GiveBack(id, new RefundWish(amount, form.Text("note")), cancel, Links.Read(form.Text("key")))
            : Refusal.Invalid(
                "amount.amount",
                $"“{form.Text("amount")}” is not an amount.",
                $"an amount of {currency}"
            );
        return given.Refusal is { } refusal
            ? await ShowAgain(id, refusal, money, orders, cancel)
            : Pages.Go($"{Orders}/{id}/money");
    }

    private static async Task<IResult> OnRefund(
        string id,
        string refund,
        IFormCollection form,
        OwnerMoney money,
        CancellationToken cancel
    )
    {
        var done =
            form.Text("do") == "again"
                ? await money.TryAgain(id, refund, cancel)
                : await money.PaidBack(id, refund, cancel);
        var page = $"{Orders}/{id}/money";
        return done.Refusal is { } refusal ? Pages.Refuse(refusal, page, Money) : Pages.Go(page);
    }
}
