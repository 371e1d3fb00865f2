using ReedShop.Accounts;
using ReedShop.Calendar;
using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Checkout;
using ReedShop.Demo;
using ReedShop.Insight;
using ReedShop.Messages;
using ReedShop.Opening;
using ReedShop.Orders;
using ReedShop.Payments;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Quotes;
using ReedShop.Reminders;
using ReedShop.Search;
using ReedShop.Shipping;
using ReedShop.Shop;
using ReedShop.Vouchers;
using ReedShop.Watch;
using ReedShop.Workshop;

return await ShopRun.Run(args, Add, Map);

static void Add(WebApplicationBuilder builder)
{
    builder.AddPlatform();
    builder.AddMessages();
    builder.AddAccounts();
    builder.AddShop();
    builder.AddCatalogue();
    builder.AddCane();
    builder.AddOrders();
    builder.AddVouchers();
    builder.AddWorkshop();
    builder.AddWatch();
    builder.AddQuotes();
    builder.AddOpening();
    builder.AddPayments();
    builder.AddCheckout();
    builder.AddShipping();
    builder.AddInsight();
    builder.AddSearch();
    builder.AddReminders();
    builder.AddCalendar();
    builder.AddDemo();
}

static void Map(WebApplication app)
{
    app.UseHttp();
    app.UseAccounts();
    app.MapPlatform();
    app.MapMessages();
    app.MapAccounts();
    app.MapShop();
    app.MapCatalogue();
    app.MapCane();
    app.MapOrders();
    app.MapVouchers();
    app.MapWorkshop();
    app.MapWatch();
    app.MapQuotes();
    app.MapOpening();
    app.MapPayments();
    app.MapCheckout();
    app.MapShipping();
    app.MapInsight();
    app.MapSearch();
    app.MapReminders();
    app.MapCalendar();
}
