using System.Text;
using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Opening;

/// <summary>What was made before: counts from files, or none and promises that are less sure; and what comes then.</summary>
internal static class PastSteps
{
    /// <summary>Reeds asked about: a buyer's usual first wish.</summary>
    private const int Asked = 4;

    private static readonly int[] Quantities = [1, 4, 10];

    private static readonly double[] Confidences = [0.9, 0.8, 0.6];

    public static Task<IResult> Show(WalkReader reader, FirstPromises promises, CancellationToken cancel) =>
        Page(reader, promises, [], cancel);

    /// <summary>Either file may be left out.</summary>
    public static async Task<IResult> BringIn(
        IFormCollection form,
        HistoryImport import,
        WalkReader reader,
        FirstPromises promises,
        CancellationToken cancel
    )
    {
        var uploads = new List<HistoryUpload>();
        if (form.Files["steps"] is { Length: > 0 } steps)
        {
            using var text = HistoryApi.Open(steps.OpenReadStream());
            uploads.Add(HistoryPages.Upload("steps", await import.ImportSteps(text, strict: false, cancel)));
        }

        if (form.Files["grades"] is { Length: > 0 } grades)
        {
            using var text = HistoryApi.Open(grades.OpenReadStream());
            uploads.Add(HistoryPages.Upload("grades", await import.ImportGrades(text, strict: false, cancel)));
        }

        if (uploads.Count == 0)
        {
            var refusal = Refusal.Invalid("steps", "No file was chosen, or it is empty.", "a CSV file of steps");
            uploads.Add(new HistoryUpload("steps", null, refusal));
        }

        return await Page(reader, promises, uploads, cancel);
    }

    public static async Task<IResult> SetConfidence(
        IFormCollection form,
        ShopStore shops,
        ShopCommands commands,
        CancellationToken cancel
    )
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return WalkPages.NoShop();
        }

        var chosen = form.Whole("confidence");
        var saved = chosen.Refusal is { } fault
            ? fault
            : await commands.Save(
                ShopView.Of(shop) with
                {
                    Confidence = (chosen.Value ?? 0) / 100.0,
                },
                form.SeenVersion(),
                cancel
            );
        return saved.Refusal is { } refusal
            ? Pages.Refuse(refusal, WalkStep.Past.Address, OpeningPages.Address)
            : Pages.Go(WalkStep.Next.Address);
    }

    /// <summary>The columns and the maker's own counted steps; the counts are left for the maker to fill in.</summary>
    public static async Task<IResult> EmptyFile(string kind, CatalogueStore catalogue, CancellationToken cancel)
    {
        var models = await catalogue.All(cancel);
        var text = new StringBuilder();
        if (kind == "grades")
        {
            text.AppendJoin(',', HistoryColumns.Grades.Needed).Append('\n');
            text.AppendJoin(
                "",
                models.SelectMany((model, n) => model.Strengths.Select(strength => $"{n + 1},{strength.Value},\n"))
            );
        }
        else
        {
            text.AppendJoin(',', HistoryColumns.Steps.Needed).Append('\n');
            text.AppendJoin("", models.SelectMany(Rows));
        }

        return TypedResults.File(Encoding.UTF8.GetBytes(text.ToString()), "text/csv", $"{kind}.csv");
    }

    public static async Task<IResult> ShowNext(WalkReader reader, FirstPromises promises, CancellationToken cancel)
    {
        if (await reader.Read(cancel) is not { } state)
        {
            return WalkPages.NoShop();
        }

        var told = new List<FirstPromise>();
        foreach (var quantity in state.Models.Count == 0 ? [] : Quantities)
        {
            told.Add(await promises.Ask(state.Models[0], quantity, state.Shop.Confidence, cancel));
        }

        return Pages.Show<WalkNextPage>(new { State = state, Promises = told });
    }

    /// <param name="before">How many models come first: a batch is of one.</param>
    private static IEnumerable<string> Rows(ReedModel model, int before) =>
        model
            .Route.CountedSteps(1, model.Route.Steps.Count)
            .Select(step => $"{before + 1},{model.Key},{model.Strengths[0].Value},,,{step},,\n");

    private static async Task<IResult> Page(
        WalkReader reader,
        FirstPromises promises,
        IReadOnlyList<HistoryUpload> uploads,
        CancellationToken cancel
    )
    {
        if (await reader.Read(cancel) is not { } state)
        {
            return WalkPages.NoShop();
        }

        var told = new List<FirstPromise>();
        foreach (var confidence in state.Models.Count == 0 ? [] : Confidences)
        {
            told.Add(await promises.Ask(state.Models[0], Asked, confidence, cancel));
        }

        return Pages.Show<WalkPastPage>(
            new
            {
                State = state,
                Uploads = uploads,
                Promises = told,
                Known = state.Models.Count == 0 ? null : await promises.Reckoned(state.Models[0], cancel),
            },
            uploads.FirstOrDefault(upload => upload.Refusal is not null)?.Refusal
        );
    }
}
