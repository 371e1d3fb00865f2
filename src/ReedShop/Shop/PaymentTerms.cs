namespace ReedShop.Shop;

/// <summary>On what terms buyers pay.</summary>
/// <param name="DepositShare">The part of the price that is paid with the order, 0.1 to 1; the rest before it is shipped.</param>
/// <param name="KeptShare">The part of the price the shop keeps when a buyer cancels after the first sitting, 0 to 1.</param>
/// <param name="PaperNote">Stands under every invoice and credit note, such as a tax number.</param>
public sealed record PaymentTerms(double DepositShare = 1, double KeptShare = 0, string? PaperNote = null)
{
    public const double LeastDeposit = 0.1;
    public const int MostNoteCharacters = 500;

    public static PaymentTerms Usual { get; } = new();

    public bool IsUsable =>
        DepositShare is >= LeastDeposit and <= 1
        && KeptShare is >= 0 and <= 1
        && (PaperNote?.Length ?? 0) <= MostNoteCharacters;
}
