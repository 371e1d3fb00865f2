using Microsoft.AspNetCore.Identity;
using ReedShop.Platform;

namespace ReedShop.Accounts;

/// <summary>The one account of the shop.</summary>
public sealed class OwnerAccount(
    UserManager<IdentityUser> users,
    SignInManager<IdentityUser> door,
    OwnerPresence presence
)
{
    public const string UserName = "owner";
    public const int LeastPasswordCharacters = 10;

    private static readonly Refusal Unusable = Refusal.Invalid(
        "password",
        "The password cannot be used.",
        $"{LeastPasswordCharacters} characters or more"
    );

    /// <summary>Asked with every page until there is an owner, and from memory ever after.</summary>
    public async Task<bool> Exists()
    {
        if (!presence.IsKnown)
        {
            presence.IsKnown = await users.FindByNameAsync(UserName) is not null;
        }

        return presence.IsKnown;
    }

    /// <summary>Saves the account, and with it everything else the same unit of work has changed.</summary>
    public async Task<Refusal?> Create(string? password)
    {
        var created = await users.CreateAsync(new IdentityUser(UserName), password ?? "");
        return created.Succeeded ? null : Unusable;
    }

    /// <summary>Gives the owner another password, whatever the last one was.</summary>
    public async Task ReplacePassword(string password)
    {
        var owner = await users.FindByNameAsync(UserName) ?? throw new InvalidOperationException("There is no owner.");
        await users.RemovePasswordAsync(owner);
        await users.AddPasswordAsync(owner, password);
    }

    /// <summary>A device at the bench stays signed in.</summary>
    public Task<SignInResult> SignIn(string? password) =>
        door.PasswordSignInAsync(UserName, password ?? "", isPersistent: true, lockoutOnFailure: true);

    public async Task<Refusal?> ChangePassword(string? current, string? wanted)
    {
        var owner = await users.FindByNameAsync(UserName) ?? throw new InvalidOperationException("There is no owner.");
        if (!await users.CheckPasswordAsync(owner, current ?? ""))
        {
            return Refusal.Invalid("current", "That is not the present password.", "the present password");
        }

        var changed = await users.ChangePasswordAsync(owner, current ?? "", wanted ?? "");
        if (!changed.Succeeded)
        {
            return Unusable;
        }

        await door.RefreshSignInAsync(owner);
        return null;
    }

    public async Task Remove()
    {
        if (await users.FindByNameAsync(UserName) is { } owner)
        {
            await users.DeleteAsync(owner);
        }

        presence.IsKnown = false;
    }

    public Task SignOut() => door.SignOutAsync();
}

/// <summary>Remembers that there is an owner.</summary>
public sealed class OwnerPresence
{
    private volatile bool known;

    public bool IsKnown
    {
        get => known;
        set => known = value;
    }
}
