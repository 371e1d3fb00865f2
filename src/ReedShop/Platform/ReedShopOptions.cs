using Microsoft.Extensions.Options;

namespace ReedShop.Platform;

/// <summary>What is set from outside: `ReedShop__DataFolder` in the environment, `--ReedShop:DataFolder` on the command line.</summary>
public sealed class ReedShopOptions
{
    public const string Section = "ReedShop";

    /// <summary>Where the database, the log and the undeliverable mail live; a folder of its own by default.</summary>
    public string? DataFolder { get; set; }

    /// <summary>Opens the owner's part of the API to scripts; without it that part stays closed.</summary>
    public string? OwnerToken { get; set; }

    /// <summary>
    /// Forgets the owner's password at the start, for an owner who has forgotten it too: the first-run page then asks
    /// for a new one. To be taken out again afterwards.
    /// </summary>
    public bool ResetOwner { get; set; }

    /// <summary>Where buyers reach the shop, such as https://reeds.example.org; for links in messages.</summary>
    public string? PublicAddress { get; set; }

    /// <summary>The invented shop, in a data folder of its own.</summary>
    public bool Demo { get; set; }

    /// <summary>How many nightly copies of the database are kept; none are made where it is 0.</summary>
    public int BackupsKept { get; set; } = 14;

    /// <summary>Whether this process delivers messages, reminds and tidies up every minute.</summary>
    public bool Ticks { get; set; } = true;
}

internal sealed class ReedShopOptionsRules : IValidateOptions<ReedShopOptions>
{
    private const int LeastTokenCharacters = 16;
    private const int MostBackups = 1000;

    public ValidateOptionsResult Validate(string? name, ReedShopOptions options) =>
        options switch
        {
            { OwnerToken.Length: > 0 and < LeastTokenCharacters } => ValidateOptionsResult.Fail(
                $"ReedShop__OwnerToken is too short to be safe: give it {LeastTokenCharacters} characters or more."
            ),
            { PublicAddress: { } address }
                when !Uri.TryCreate(address, UriKind.Absolute, out var uri) || uri.Scheme is not ("http" or "https") =>
                ValidateOptionsResult.Fail(
                    "ReedShop__PublicAddress must be a whole address, such as https://reeds.example.org."
                ),
            { BackupsKept: < 0 or > MostBackups } => ValidateOptionsResult.Fail(
                $"ReedShop__BackupsKept must be a number of copies from 0 to {MostBackups}."
            ),
            { DataFolder: { } folder } when !Path.IsPathFullyQualified(folder) => ValidateOptionsResult.Fail(
                "ReedShop__DataFolder must be a whole path, such as /srv/reedshop: a relative one would change with the folder the program is started from."
            ),
            _ => ValidateOptionsResult.Success,
        };
}
