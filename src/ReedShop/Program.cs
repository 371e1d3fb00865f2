using ReedShop.Accounts;
using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Shop;
using ReedShop.Workshop;

var builder = WebApplication.CreateBuilder(ShopRun.Arguments(args));
builder.AddPlatform();
builder.AddAccounts();
builder.AddShop();
builder.AddCatalogue();
builder.AddCane();
builder.AddOrders();
builder.AddWorkshop();

var app = builder.Build();
app.MapShop();
app.MapCatalogue();
app.MapCane();
app.MapWorkshop();
return await app.RunShop();
