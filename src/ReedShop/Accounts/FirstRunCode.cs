using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ReedShop.Accounts;

/// <summary>
/// The code that shows that whoever sets the shop up can also read the console. It lives as long as the process and is
/// replaced after a few wrong guesses.
/// </summary>
public sealed partial class FirstRunCode(ILogger<FirstRunCode> log)
{
    private const int MostGuesses = 5;
    private const int Digits = 8;

    private readonly Lock guard = new();
    private string code = NewCode();
    private int wrong;

    public string Current
    {
        get
        {
            lock (guard)
            {
                return code;
            }
        }
    }

    /// <param name="address">Where the program listens, if it knows.</param>
    public void Print(string? address) => Printed(address ?? "", Current);

    public bool Matches(string? sent)
    {
        lock (guard)
        {
            if (CryptographicOperations.FixedTimeEquals(Bytes(sent?.Trim() ?? ""), Bytes(code)))
            {
                return true;
            }

            if (++wrong >= MostGuesses)
            {
                (code, wrong) = (NewCode(), 0);
                Printed("", code);
            }

            return false;
        }
    }

    private static string NewCode() =>
        RandomNumberGenerator.GetInt32((int)Math.Pow(10, Digits)).ToString($"D{Digits}", CultureInfo.InvariantCulture);

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "This shop has no owner yet: open {Address}/first-run and give the code {Code}"
    )]
    private partial void Printed(string address, string code);
}
