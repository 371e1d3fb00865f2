using System.Globalization;
using ReedShop.Platform;
using Grade = ReedShop.Planning.Strength;

namespace ReedShop.Insight;

/// <summary>The sizing question as it was typed.</summary>
/// <param name="Aim">Empty where the batch is worked toward the wanted strength.</param>
/// <param name="Also">A second strength to cover together with the first, and how many of it.</param>
public sealed record SizingQuestion(
    string? Model = null,
    string? Strength = null,
    string? Quantity = null,
    string? Confidence = null,
    string? From = null,
    string? Aim = null,
    string? Also = null,
    string? AlsoQuantity = null
)
{
    public const int UsualConfidencePercent = 90;

    public bool IsAsked => !string.IsNullOrWhiteSpace(Quantity);

    public bool IsFromShelf => string.Equals(From, nameof(BlanksFrom.Shelf), StringComparison.OrdinalIgnoreCase);

    /// <summary>Either field asks for both: one without the other is a slip that is told.</summary>
    private bool IsJoint => !string.IsNullOrWhiteSpace(Also) || !string.IsNullOrWhiteSpace(AlsoQuantity);

    public async Task<Result<SizingAnswered>> Answer(SizingReader reader, CancellationToken cancel)
    {
        var wish = Read();
        if (wish.Refusal is { } refusal)
        {
            return refusal;
        }

        var sized = await reader.Size(wish.Value, cancel);
        return !IsJoint || sized.IsRefused
            ? sized.Then<SizingAnswered>(view => new SizingAnswered(view, null))
            : (await Jointly(reader, wish.Value, cancel)).Then<SizingAnswered>(joint => new SizingAnswered(
                sized.Value,
                joint
            ));
    }

    private async Task<Result<JointSizingView>> Jointly(SizingReader reader, SizingWish wish, CancellationToken cancel)
    {
        if (!Grade.TryParse(Also, out var other) || !IsWhole(AlsoQuantity, out var count) || other == wish.Strength)
        {
            return Refusal.Invalid("also", "How many of which other strength?", "another strength and a whole number");
        }

        var counts = new Dictionary<Grade, int> { [wish.Strength] = wish.Quantity, [other] = count };
        return await reader.SizeJointly(wish.Model, counts, wish.Confidence, wish.From, cancel);
    }

    private Result<SizingWish> Read()
    {
        if (!Grade.TryParse(Strength, out var wanted))
        {
            return Refusal.Invalid("strength", "The strength cannot be used.", Grade.Allowed);
        }

        if (!Grade.TryParse(string.IsNullOrWhiteSpace(Aim) ? Strength : Aim, out var aim))
        {
            return Refusal.Invalid("aim", "The aim cannot be used.", Grade.Allowed);
        }

        return IsWhole(Quantity, out var quantity) && IsWhole(Confidence, out var percent)
            ? new SizingWish(
                Model ?? "",
                wanted,
                quantity,
                percent / 100d,
                IsFromShelf ? BlanksFrom.Shelf : BlanksFrom.Cane,
                aim
            )
            : Refusal.Invalid("quantity", "How many reeds, how surely?", "whole numbers, such as 10 and 90 in 100");
    }

    private static bool IsWhole(string? text, out int number) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number);
}

/// <param name="Joint">Where a second strength was asked for.</param>
public sealed record SizingAnswered(SizingView Sizing, JointSizingView? Joint);
