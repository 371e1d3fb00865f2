using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Vouchers;

/// <summary>Vouchers, for the owner to make and end.</summary>
public static class VoucherPages
{
    public const string Address = "/bench/vouchers";

    public static void MapVoucherPages(this IEndpointRouteBuilder routes)
    {
        var vouchers = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        vouchers.MapGet("", Show);
        vouchers.MapPost("", Make);
        vouchers.MapPost("end", End);
    }

    private static Task<IResult> Show(VoucherReader reader, ShopStore shops, CancellationToken cancel) =>
        Page(reader, shops, null, null, cancel);

    private static async Task<IResult> Make(
        IFormCollection form,
        VoucherCommands commands,
        VoucherReader reader,
        ShopStore shops,
        CancellationToken cancel
    )
    {
        var wish = VoucherForm.Read(form, (await shops.Find(cancel))?.Currency ?? "");
        var made = wish.Refusal is { } fault ? fault : await commands.Make(wish.Value, cancel);
        return made.Refusal is { } refusal ? await Page(reader, shops, form, refusal, cancel) : Pages.Go(Address);
    }

    private static async Task<IResult> End(
        IFormCollection form,
        VoucherCommands commands,
        VoucherReader reader,
        ShopStore shops,
        CancellationToken cancel
    )
    {
        var ended = await commands.End(form.Text("ended"), cancel);
        return ended.Refusal is { } refusal ? await Page(reader, shops, null, refusal, cancel) : Pages.Go(Address);
    }

    private static async Task<IResult> Page(
        VoucherReader reader,
        ShopStore shops,
        IFormCollection? typed,
        Refusal? refusal,
        CancellationToken cancel
    ) =>
        Pages.Show<VouchersPage>(
            new
            {
                Vouchers = await reader.All(cancel),
                Currency = (await shops.Find(cancel))?.Currency ?? "",
                Typed = typed,
                Refusal = refusal,
            },
            refusal
        );
}
