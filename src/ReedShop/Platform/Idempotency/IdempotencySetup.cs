using ReedShop.Platform.Ticks;

namespace ReedShop.Platform.Idempotency;

public static class IdempotencySetup
{
    public static void AddIdempotency(this IHostApplicationBuilder builder)
    {
        builder.Services.AddSingleton<KeyedRequests>();
        builder.Services.AddScoped<AnswerStore>();
        builder.AddTick<ForgetOldAnswers>("forget-old-answers");
    }
}
