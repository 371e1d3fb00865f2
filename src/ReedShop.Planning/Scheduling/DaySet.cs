using System.Numerics;
using System.Runtime.Intrinsics;

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Sets of days as bits, 64 to a word, bit i standing for the i-th day of a window. Blanks move from day to day
/// through nights, so a night passes by one shift, for all days at once; <c>nights</c> has bit i set where the night
/// after day i may be passed.
/// </summary>
internal static class DaySet
{
    /// <summary>The days whose value is at least <paramref name="least"/>; values hold 64 for each word.</summary>
    public static void AtLeast(ReadOnlySpan<int> values, int least, Span<ulong> days)
    {
        var bound = Vector256.Create(least);
        for (var w = 0; w < days.Length; w++)
        {
            var part = values.Slice(w * 64, 64);
            ulong word = 0;
            for (var i = 0; i < 64; i += Vector256<int>.Count)
            {
                var enough = Vector256.GreaterThanOrEqual(Vector256.Create(part[i..]), bound);
                word |= (ulong)enough.ExtractMostSignificantBits() << i;
            }

            days[w] = word;
        }
    }

    /// <summary>All days move so many nights on.</summary>
    public static void Later(Span<ulong> days, ReadOnlySpan<ulong> nights, int count)
    {
        for (; count > 0; count--)
        {
            var carry = 0UL;
            for (var w = 0; w < days.Length; w++)
            {
                var passing = days[w] & nights[w];
                days[w] = (passing << 1) | carry;
                carry = passing >> 63;
            }
        }
    }

    /// <summary>All days and those up to so many nights on.</summary>
    public static void UpToLater(Span<ulong> days, ReadOnlySpan<ulong> nights, int count)
    {
        for (var grown = true; count > 0 && grown; count--)
        {
            grown = false;
            var carry = 0UL;
            for (var w = 0; w < days.Length; w++)
            {
                var passing = days[w] & nights[w];
                var reached = days[w] | (passing << 1) | carry;
                carry = passing >> 63;
                grown |= reached != days[w];
                days[w] = reached;
            }
        }
    }

    /// <summary>All days move so many nights back.</summary>
    public static void Earlier(Span<ulong> days, ReadOnlySpan<ulong> nights, int count)
    {
        for (; count > 0; count--)
        {
            var carry = 0UL;
            for (var w = days.Length - 1; w >= 0; w--)
            {
                var day = days[w];
                days[w] = ((day >> 1) | carry) & nights[w];
                carry = day << 63;
            }
        }
    }

    /// <summary>All days and those up to so many nights back.</summary>
    public static void UpToEarlier(Span<ulong> days, ReadOnlySpan<ulong> nights, int count)
    {
        for (var grown = true; count > 0 && grown; count--)
        {
            grown = false;
            var carry = 0UL;
            for (var w = days.Length - 1; w >= 0; w--)
            {
                var day = days[w];
                var reached = day | (((day >> 1) | carry) & nights[w]);
                carry = day << 63;
                grown |= reached != day;
                days[w] = reached;
            }
        }
    }

    public static bool Has(ReadOnlySpan<ulong> days, int day) => ((days[day >> 6] >> (day & 63)) & 1) != 0;

    public static void Add(Span<ulong> days, int day) => days[day >> 6] |= 1UL << (day & 63);

    public static void KeepOnly(Span<ulong> days, int day)
    {
        var kept = day >= 0 && day < days.Length * 64 && Has(days, day);
        days.Clear();
        if (kept)
        {
            Add(days, day);
        }
    }

    public static void Both(Span<ulong> days, ReadOnlySpan<ulong> others)
    {
        for (var w = 0; w < days.Length; w++)
        {
            days[w] &= others[w];
        }
    }

    /// <summary>Leaves only the days before <paramref name="end"/>.</summary>
    public static void CutFrom(Span<ulong> days, int end)
    {
        for (var w = 0; w < days.Length; w++)
        {
            var kept = end - (w * 64);
            days[w] &=
                kept <= 0 ? 0
                : kept >= 64 ? ulong.MaxValue
                : (1UL << kept) - 1;
        }
    }

    public static int Last(ReadOnlySpan<ulong> days)
    {
        for (var w = days.Length - 1; w >= 0; w--)
        {
            if (days[w] != 0)
            {
                return (w * 64) + BitOperations.Log2(days[w]);
            }
        }

        return -1;
    }

    /// <summary>The first day of the set from <paramref name="day"/> on, or -1.</summary>
    public static int FirstFrom(ReadOnlySpan<ulong> days, int day)
    {
        for (var w = day >> 6; w < days.Length; w++)
        {
            var word = w == day >> 6 ? days[w] & (ulong.MaxValue << (day & 63)) : days[w];
            if (word != 0)
            {
                return (w * 64) + BitOperations.TrailingZeroCount(word);
            }
        }

        return -1;
    }

    /// <summary>The last day of the set up to <paramref name="day"/>, or -1.</summary>
    public static int LastUpTo(ReadOnlySpan<ulong> days, int day)
    {
        for (var w = day >> 6; w >= 0; w--)
        {
            var word = w == day >> 6 ? days[w] & (ulong.MaxValue >> (63 - (day & 63))) : days[w];
            if (word != 0)
            {
                return (w * 64) + BitOperations.Log2(word);
            }
        }

        return -1;
    }
}
