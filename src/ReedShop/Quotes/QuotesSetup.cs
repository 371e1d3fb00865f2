namespace ReedShop.Quotes;

public static class QuotesSetup
{
    public static void AddQuotes(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<QuoteStore>();
        builder.Services.AddScoped<QuoteMaker>();
    }
}
