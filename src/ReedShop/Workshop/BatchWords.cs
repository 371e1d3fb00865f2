using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>Batches as the maker speaks of them.</summary>
public static class BatchWords
{
    /// <summary>"bass clarinet": the short name of a model as it is said, not as files write it.</summary>
    public static string Reed(string model) => model.Replace('-', ' ');

    /// <summary>"bass clarinet 3½", or "bass clarinet, for the shelf" where there is no aim yet.</summary>
    public static string Reeds(string model, Strength? aim) =>
        Reed(model) + (aim is { } strength ? $" {strength}" : ", for the shelf");

    public static string Of(BatchStage stage) =>
        stage switch
        {
            BatchStage.Planned => "planned",
            BatchStage.OnBench => "on the bench",
            BatchStage.Shelved => "on the shelf",
            BatchStage.Graded => "graded",
            BatchStage.Emptied => "no blank left",
            _ => "called off",
        };
}
