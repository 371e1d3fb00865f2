using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>The pages that the forms of the bench answer with.</summary>
public sealed class BenchPages(
    TodayReader today,
    BatchReader batches,
    WholeStoryReader stories,
    CatalogueStore catalogue,
    CaneStore cane
)
{
    private const int BatchesShown = 50;

    public async Task<IResult> Today(DateOnly? date, DryingQuestion drying, SentForm? sent, CancellationToken cancel)
    {
        var view = await today.Read(date, cancel);
        return view.Refusal is { } refusal
            ? Pages.Refuse(refusal, "/", BatchPages.TodayAddress)
            : Pages.Show<TodayPage>(
                new
                {
                    Today = view.Value,
                    Drying = drying,
                    Sent = sent,
                },
                sent?.Refusal ?? drying.Answer?.Refusal
            );
    }

    public async Task<IResult> Batch(string id, SentForm? sent, CancellationToken cancel)
    {
        var found = await stories.Read(id, cancel);
        if (found.Refusal is { } refusal)
        {
            return Pages.Refuse(refusal, BatchPages.Address, BatchPages.Address);
        }

        var view = await today.Read(null, cancel);
        return Pages.Show<BatchPage>(
            new
            {
                Whole = found.Value,
                Bench = view.IsRefused ? null : view.Value.Batches.GetValueOrDefault(id),
                OnRack = view.IsRefused ? null : view.Value.OnRack.FirstOrDefault(rack => rack.Batch == id),
                Today = view.IsRefused ? default : view.Value.Today,
                Sent = sent,
            },
            sent?.Refusal
        );
    }

    public async Task<IResult> List(int? after, IFormCollection? typed, Refusal? refusal, CancellationToken cancel) =>
        Pages.Show<BatchesPage>(
            new
            {
                Batches = await batches.Page(BatchesShown, after, cancel),
                Models = await catalogue.All(cancel),
                Cane = await cane.All(cancel),
                Typed = typed,
                Refusal = refusal,
            },
            refusal
        );

    /// <summary>Back to the page a form was on; with what was typed when it was refused.</summary>
    public async Task<IResult> After(
        string id,
        string name,
        IFormCollection form,
        Refusal? refusal,
        CancellationToken cancel
    )
    {
        var isToday = form.Text("back") == BatchPages.BackToToday;
        if (refusal is null)
        {
            return Pages.Go(isToday ? BatchPages.TodayAddress : $"{BatchPages.Address}/{id}");
        }

        var sent = new SentForm(id, name, form, refusal);
        return isToday ? await Today(null, DryingQuestion.None, sent, cancel) : await Batch(id, sent, cancel);
    }
}
