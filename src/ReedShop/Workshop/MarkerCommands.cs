using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>A marker to set: today where no date is said, all models where none is named.</summary>
public sealed record MarkerWish(string What, string? Model = null, DateOnly? Date = null);

public sealed record MarkerView(string Id, DateOnly Date, string? Model, string What)
{
    public static MarkerView Of(Marker marker) => new(marker.Id, marker.Date, marker.Model, marker.What);
}

/// <summary>Sets and removes markers, whichever door they come through.</summary>
public sealed class MarkerCommands(FactsGate gate)
{
    public Task<Result<MarkerView>> Set(MarkerWish wish, CancellationToken cancel) =>
        gate.Change((services, stop) => Set(services, wish, stop), cancel);

    public Task<Result<MarkerView>> Remove(string id, CancellationToken cancel) =>
        gate.Change((services, stop) => Remove(services, id, stop), cancel);

    private static async Task<Result<MarkerView>> Set(
        IServiceProvider services,
        MarkerWish wish,
        CancellationToken cancel
    )
    {
        var read = await services.GetRequiredService<FactsReader>().Read(cancel);
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var what = (wish.What ?? "").Trim();
        var model = string.IsNullOrWhiteSpace(wish.Model) ? null : wish.Model;
        var today = read.Value.Today;
        if (what.Length is 0 or > Marker.LongestWhat)
        {
            return Refusal.Invalid("what", "What changed?", $"1 to {Marker.LongestWhat} characters, such as new blade");
        }

        if (model is not null && !read.Value.Models.ContainsKey(model))
        {
            return Refusal.Invalid(
                "model",
                $"There is no model {model}.",
                $"one of {string.Join(", ", read.Value.Models.Keys)}, or none"
            );
        }

        if (wish.Date > today)
        {
            return Refusal.Invalid("date", "A marker looks back.", $"a date up to today, {Words.DayToSend(today)}");
        }

        var marker = new Marker
        {
            Id = Links.New(),
            Date = wish.Date ?? today,
            Model = model,
            What = what,
        };
        var markers = services.GetRequiredService<MarkerStore>();
        if (await markers.Same(marker, cancel) is { } known)
        {
            // Every marker makes older batches count less: the same one sent twice must not count twice.
            return MarkerView.Of(known);
        }

        markers.Add(marker);
        Write(services, marker, "set");
        return MarkerView.Of(marker);
    }

    private static async Task<Result<MarkerView>> Remove(IServiceProvider services, string id, CancellationToken cancel)
    {
        var markers = services.GetRequiredService<MarkerStore>();
        if (await markers.Find(id, cancel) is not { } marker)
        {
            return Refusal.Missing("such marker");
        }

        markers.Remove(marker);
        Write(services, marker, "removed");
        return MarkerView.Of(marker);
    }

    private static void Write(IServiceProvider services, Marker marker, string change) =>
        services
            .GetRequiredService<JournalStore>()
            .Write("owner", "yields", $"marker {change}: {marker.What}, {marker.Date:yyyy-MM-dd}");
}
