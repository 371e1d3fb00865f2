namespace ReedShop.Workshop;

/// <summary>The stages of a batch as the maker says them.</summary>
public static class BatchWords
{
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
