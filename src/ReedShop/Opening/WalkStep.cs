namespace ReedShop.Opening;

/// <summary>One step of the walk through a new shop.</summary>
public sealed record WalkStep(string Key, string Name, string Title)
{
    public static readonly WalkStep Shop = new("shop", "Shop", "Your shop");
    public static readonly WalkStep Hours = new("hours", "Hours and rack", "When you are at the bench");
    public static readonly WalkStep Model = new("model", "A model", "What you make");
    public static readonly WalkStep Cane = new("cane", "Cane", "What you cut it from");
    public static readonly WalkStep Past = new("past", "Past batches", "What you made before");
    public static readonly WalkStep Next = new("next", "What comes next", "Your shop is open");

    public static IReadOnlyList<WalkStep> All { get; } = [Shop, Hours, Model, Cane, Past, Next];

    public string Address => $"{OpeningPages.Address}/{Key}";

    public int Number => 1 + All.ToList().IndexOf(this);

    public WalkStep? Before => Number == 1 ? null : All[Number - 2];

    public WalkStep? After => Number == All.Count ? null : All[Number];
}
