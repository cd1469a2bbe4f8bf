using System.Globalization;

namespace Sandarac.Materials;

/// <summary>A figure as a table gives it: one number, a range, or only an upper bound.</summary>
/// <param name="Low">Lower end; 0 where only an upper bound is known.</param>
/// <param name="High">Upper end; the same as the lower for one number.</param>
/// <param name="IsBound">Whether only the upper end is known: "&lt;0.1".</param>
public readonly record struct Interval(double Low, double High, bool IsBound = false)
{
    /// <summary>Middle of the range.</summary>
    public double Middle => (Low + High) / 2;

    /// <summary>Reads "40", "38..43" or "&lt;0.1".</summary>
    /// <exception cref="FormatException">It is none of these.</exception>
    public static Interval Parse(string text) => text.Split("..") switch
    {
        [['<', .. var bound]] => new(0, Number(bound), true),
        [var one] => new(Number(one), Number(one)),
        [var low, var high] => new(Number(low), Number(high)),
        _ => throw new FormatException($"\"{text}\" is neither a number nor a range."),
    };

    /// <summary>"40", "38 to 43", "below 0.1".</summary>
    public override string ToString() => IsBound ? $"below {Text(High)}" : High > Low ? $"{Text(Low)} to {Text(High)}" : Text(Low);

    internal static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static string Text(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
