namespace ReedShop.Platform.Ticks;

/// <summary>
/// Work that looks every minute whether something is due. It asks the shop's clock, may run twice and at the same time
/// as itself, and leaves what it could not do for the next minute.
/// </summary>
public interface ITick
{
    Task Run(CancellationToken cancel);
}

/// <summary>The name under which a tick is kept between versions.</summary>
public sealed record TickName(string Name);
