namespace ReedShop.Platform.Http;

public static class HttpSetup
{
    public static void AddHttp(this WebApplicationBuilder builder)
    {
        builder.Services.ConfigureHttpJsonOptions(json => ShopJson.Configure(json.SerializerOptions));
    }
}
