using Sandarac.Imaging;

namespace Sandarac.Analysis.Lines;

/// <summary>Lines of two photographs on one grid: those that both show, and those that only one shows.</summary>
/// <param name="First">Line strength of the first photograph.</param>
/// <param name="Second">Line strength of the second.</param>
/// <param name="FirstOnly">Lines of the first that the second does not show.</param>
/// <param name="Both">Lines of the first that the second shows too.</param>
/// <param name="SecondOnly">Lines of the second that the first does not show.</param>
internal sealed record LineWork(LineField First, LineField Second, IReadOnlyList<TracedLine> FirstOnly, IReadOnlyList<TracedLine> Both, IReadOnlyList<TracedLine> SecondOnly)
{
    /// <summary>A photograph shows a line of the other when it has at least this share of its depth in the same place and direction.</summary>
    public const double Shown = 0.5;

    /// <summary>A line goes on in points of this share of the strength in which it may begin.</summary>
    private const double Weak = 0.4;

    /// <summary>Compares two photographs.</summary>
    /// <param name="first">Natural logarithm of light.</param>
    /// <param name="second">The same, on the same grid.</param>
    /// <param name="shape">What is taken for a line.</param>
    /// <param name="strong">Depth in which a line may begin, natural logarithm.</param>
    /// <param name="shortest">Least length of a line, pixels.</param>
    /// <param name="threads">Threads at most; changes no number.</param>
    public static LineWork Of(Plane first, Plane second, LineShape shape, double strong, double shortest, ParallelOptions threads)
    {
        var (ofFirst, ofSecond) = (LineField.Of(first, shape, threads), LineField.Of(second, shape, threads));
        var (margin, gap) = ((int)Math.Ceiling(3 * shape.Width), Math.Max(3, 1.5 * shape.Width));
        IReadOnlyList<TracedLine> Lines(LineField field, LineField other, bool shown) =>
            new LineTrace([.. new LinePoints(field, other.Derivatives, shape).Stronger((float)(Weak * strong), margin).Where(p => p.Other >= Shown * p.Strength == shown && float.IsFinite(p.Other))], first.Width, gap).Lines(strong, shortest);
        return new LineWork(ofFirst, ofSecond, Lines(ofFirst, ofSecond, shown: false), Lines(ofFirst, ofSecond, shown: true), Lines(ofSecond, ofFirst, shown: false));
    }
}
