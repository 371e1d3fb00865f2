using ReedShop.Platform.Ticks;

namespace ReedShop.Platform.Idempotency;

/// <summary>After two days a key may be used again.</summary>
public sealed class ForgetOldAnswers(AnswerStore answers) : ITick
{
    public Task Run(CancellationToken cancel) => answers.RemoveOld(cancel);
}
