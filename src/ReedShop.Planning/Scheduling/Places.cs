namespace ReedShop.Planning.Scheduling;

/// <summary>The day and the person of every sitting, batch after batch; one without a day has no place.</summary>
internal sealed class Places(WorkTable table)
{
    private readonly int[] days = new int[table.Minutes.Length];
    private readonly int[] people = new int[table.Minutes.Length];

    public Span<int> Days(int batch) => days.AsSpan(table.First[batch], table.Sittings(batch));

    public Span<int> People(int batch) => people.AsSpan(table.First[batch], table.Sittings(batch));

    public bool Has(int batch) => days[table.First[batch]] != WorkTable.NoDay;

    public void Clear() => Array.Fill(days, WorkTable.NoDay);

    public void Drop(int batch) => days[table.First[batch]] = WorkTable.NoDay;

    public void CopyFrom(Places other)
    {
        other.days.CopyTo(days, 0);
        other.people.CopyTo(people, 0);
    }

    public void CopyFrom(Places other, int batch)
    {
        other.Days(batch).CopyTo(Days(batch));
        other.People(batch).CopyTo(People(batch));
    }
}
