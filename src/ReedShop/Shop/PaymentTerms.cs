namespace ReedShop.Shop;

/// <summary>On what terms buyers pay.</summary>
/// <param name="DepositShare">The part of the price that is paid with the order, 0.1 to 1; the rest before it is shipped.</param>
/// <param name="KeptShare">The part of the price the shop keeps when a buyer cancels after the first sitting, 0 to 1.</param>
/// <param name="TaxShare">
/// The tax that prices contain, as a share of what they would be without it, 0 to 1; shown on invoices and credit notes.
/// Whether any is due, and which, the maker must know.
/// </param>
/// <param name="TaxName">What the tax is called there, such as VAT.</param>
/// <param name="PaperNote">Stands under every invoice and credit note, such as a tax number.</param>
public sealed record PaymentTerms(
    double DepositShare = 1,
    double KeptShare = 0,
    string? PaperNote = null,
    double TaxShare = 0,
    string? TaxName = null
)
{
    public const double LeastDeposit = 0.1;
    public const int MostNoteCharacters = 500;
    public const int MostNameCharacters = 40;

    public static PaymentTerms Usual { get; } = new();

    public bool IsUsable =>
        DepositShare is >= LeastDeposit and <= 1
        && KeptShare is >= 0 and <= 1
        && TaxShare is >= 0 and <= 1
        && (TaxName?.Length ?? 0) <= MostNameCharacters
        && (PaperNote?.Length ?? 0) <= MostNoteCharacters;
}
