using Microsoft.Playwright;

namespace ReedShop.Browser.Tests;

/// <summary>Somebody who has a keyboard and nothing else. Every stop of the focus is looked at.</summary>
/// <param name="asWritten">Stops follow one another as they stand in the page; a chart may be told in another order.</param>
internal sealed class Hands(IPage page, bool asWritten = true)
{
    private const int MostStops = 120;

    private const string LookAtStop = """
        () => {
          const stop = document.activeElement;
          if (!stop || stop === document.body) return null;
          const style = getComputedStyle(stop);
          const box = stop.getBoundingClientRect();
          const before = window.lastStop;
          window.lastStop = stop;
          return {
            name: (stop.getAttribute("aria-label") ?? stop.labels?.[0]?.innerText ?? stop.innerText).replace(/\s+/g, " ").trim(),
            html: stop.outerHTML.slice(0, 120),
            outlined: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
            onScreen: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
            inOrder: !before?.isConnected || before === stop || !!(before.compareDocumentPosition(stop) & Node.DOCUMENT_POSITION_FOLLOWING),
            top: box.top + scrollY,
            bottom: box.bottom + scrollY,
          };
        }
        """;

    /// <summary>Goes on from stop to stop until the one whose name begins so.</summary>
    public async Task TabTo(string name)
    {
        for (var stops = 0; stops < MostStops; stops++)
        {
            if (await NextStop() is { } stop && stop.Name.StartsWith(name, StringComparison.Ordinal))
            {
                return;
            }
        }

        Assert.Fail($"“{name}” is not reached by the keyboard");
    }

    public async Task Type(string field, string text)
    {
        await TabTo(field);
        await page.Keyboard.TypeAsync(text);
    }

    public async Task Press(string name, string key = "Enter")
    {
        await TabTo(name);
        await page.Keyboard.PressAsync(key);
    }

    /// <summary>Every stop of the page, from its beginning to its end.</summary>
    public async Task<IReadOnlyList<Stop>> AllStops()
    {
        var stops = new List<Stop>();
        while (await NextStop(stops.Count == 0 ? null : stops[0]) is { } stop)
        {
            stops.Add(stop);
        }

        return stops;
    }

    /// <param name="first">Where the way began: having come round to it, there is no next stop.</param>
    private async Task<Stop?> NextStop(Stop? first = null)
    {
        await page.Keyboard.PressAsync("Tab");
        var stop = await page.EvaluateAsync<Stop?>(LookAtStop);
        if (stop is not null && stop.Html == first?.Html)
        {
            return null;
        }

        if (stop is not null)
        {
            var where = $"{page.Url}: {stop.Html}";
            Assert.True(stop.Outlined, $"the focus is not seen at {where}");
            Assert.True(stop.OnScreen, $"the focus is off the screen at {where}");
            Assert.True(stop.InOrder || !asWritten, $"the focus went back to {where}");
        }

        return stop;
    }

    internal sealed class Stop
    {
        public string Name { get; set; } = "";
        public string Html { get; set; } = "";
        public bool Outlined { get; set; }
        public bool OnScreen { get; set; }
        public bool InOrder { get; set; }
        public double Top { get; set; }
        public double Bottom { get; set; }
    }
}
