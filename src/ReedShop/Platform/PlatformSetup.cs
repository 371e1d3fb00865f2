using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Options;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Platform;

public static class PlatformSetup
{
    public static void AddPlatform(this WebApplicationBuilder builder)
    {
        builder.Services.AddOptions<ReedShopOptions>().BindConfiguration(ReedShopOptions.Section).ValidateOnStart();
        builder.Services.AddSingleton<IValidateOptions<ReedShopOptions>, ReedShopOptionsRules>();
        builder.Services.TryAddSingleton(TimeProvider.System);
        builder.Services.AddSingleton<ShopClock>();
        builder.AddStorage();
        builder.AddHttp();
    }
}
