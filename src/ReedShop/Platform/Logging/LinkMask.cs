using Serilog.Core;
using Serilog.Events;

namespace ReedShop.Platform.Logging;

/// <summary>Blacks out the names of links in whatever is logged: addresses of pages come with every request.</summary>
internal sealed class LinkMask : ILogEventEnricher
{
    public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory)
    {
        foreach (var (name, value) in logEvent.Properties.ToArray())
        {
            if (value is ScalarValue { Value: string text } && Links.Mask(text) is var masked && masked != text)
            {
                logEvent.AddOrUpdateProperty(new LogEventProperty(name, new ScalarValue(masked)));
            }
        }
    }
}
