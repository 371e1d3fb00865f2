using Microsoft.Extensions.Options;
using ReedShop.Platform;

namespace ReedShop.Payments;

/// <summary>What PDFs are written with, `ReedShop__Pdf__Font`.</summary>
public sealed class PdfOptions
{
    public const string Section = $"{ReedShopOptions.Section}:Pdf";

    /// <summary>The setting, as it stands in the environment.</summary>
    public const string FontSetting = "ReedShop__Pdf__Font";

    /// <summary>A font file whose letters are taken before those of the machine.</summary>
    public string? Font { get; set; }
}

internal sealed class PdfOptionsRules : IValidateOptions<PdfOptions>
{
    public ValidateOptionsResult Validate(string? name, PdfOptions options) =>
        options.Font is { } font && !(Path.IsPathFullyQualified(font) && PdfFonts.IsTrueType(font))
            ? ValidateOptionsResult.Fail(
                $"{PdfOptions.FontSetting} must be the whole path of a TrueType file (.ttf) that can be read, or be left out."
            )
            : ValidateOptionsResult.Success;
}
