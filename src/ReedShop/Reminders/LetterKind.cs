namespace ReedShop.Reminders;

/// <summary>A letter to the maker that may be stopped and wished for again.</summary>
/// <param name="Name">As it stands in the outbox and in addresses.</param>
/// <param name="Asked">It has its hour, and goes out in quiet hours too.</param>
/// <param name="IsAboutOrder">
/// It tells of business with a buyer and carries no button to stop its kind; the page of the letters stops it.
/// </param>
public sealed record LetterKind(string Name, string Says, bool Asked = false, bool IsAboutOrder = false)
{
    public static readonly LetterKind DayList = new("day-list", "The day list in the morning", Asked: true);

    public static readonly LetterKind WhatWasDone = new(
        "what-was-done",
        "“What was done?” when the bench closes, while steps of the day are not recorded",
        Asked: true
    );

    public static readonly LetterKind NewOrder = new("new-order", "A new order", IsAboutOrder: true);

    public static readonly LetterKind NotPaid = new(
        "not-paid",
        "An order that was not paid in time",
        IsAboutOrder: true
    );

    public static readonly LetterKind LowCane = new("low-cane", "Cane that runs low");

    public static readonly LetterKind NotDelivered = new(
        "not-delivered",
        "A letter that could not be delivered",
        IsAboutOrder: true
    );

    public static IReadOnlyList<LetterKind> All { get; } =
    [DayList, WhatWasDone, NewOrder, NotPaid, LowCane, NotDelivered];

    public static LetterKind? Find(string name) => All.FirstOrDefault(kind => kind.Name == name);
}
