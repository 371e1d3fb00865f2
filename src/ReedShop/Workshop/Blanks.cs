namespace ReedShop.Workshop;

/// <summary>Where the blanks of a batch come from: the shelf when it starts with the finishing leg, else its cane lot.</summary>
public static class Blanks
{
    /// <summary>Blanks of a planned batch are spoken for, so that no second batch counts on them.</summary>
    public static void Claim(BenchFacts facts, Batch batch) => Move(facts, batch, -batch.Started, "claimed by");

    public static void GiveBack(BenchFacts facts, Batch batch) => Move(facts, batch, batch.Blanks, "given back by");

    public static bool AreFromShelf(BenchFacts facts, Batch batch) =>
        batch.FirstStep > 1 && batch.FirstStep >= facts.Models[batch.Model].Route.FirstFinishingStep;

    private static void Move(BenchFacts facts, Batch batch, int change, string why)
    {
        if (AreFromShelf(facts, batch))
        {
            facts.MoveShelf(batch.Model, batch.CaneLot ?? "", change, $"{why} batch {batch.Number}", batch.Id);
        }
        else if (facts.Cane.FirstOrDefault(lot => lot.Key == batch.CaneLot) is { } lot)
        {
            lot.BlanksLeft += change;
        }
    }
}
