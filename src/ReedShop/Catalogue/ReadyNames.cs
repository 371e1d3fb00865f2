using ReedShop.Platform.Layout;

namespace ReedShop.Catalogue;

/// <summary>
/// Names of models, instruments and steps as buyers read them: those of the ready routes in the reader's language, those
/// of the maker's own as they were typed.
/// </summary>
public static class ReadyNames
{
    /// <summary>What a model is called; its key where the shop sells it no more.</summary>
    public static string Of(IReadOnlyDictionary<string, ReedModel> models, string key) =>
        models.TryGetValue(key, out var model) ? Said(model.Name) : key;

    public static string Said(string typed) =>
        Languages.Of(Words.Culture) == Languages.Of(Languages.Usual) ? typed
        : ReadyTexts.Say.Find(typed.ToLowerInvariant()) is not { } said ? typed
        : char.IsUpper(typed[0]) ? char.ToUpperInvariant(said[0]) + said[1..]
        : said;
}
