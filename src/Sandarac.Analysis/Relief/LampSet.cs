using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>The lamps of a set of photographs, checked: three at least, all in front of the painting, not all in one plane with it.</summary>
/// <remarks>
/// A photograph that is divided by one of an even board under the same lamp shows light relative to a flat place: albedo times n.l / l_z. Without the board it shows albedo times n.l, if all lamps are
/// equally strong; a near lamp's then falls off with the square of its distance.
/// </remarks>
public sealed class LampSet
{
    /// <summary>Fewest photographs from which a normal and an albedo follow (Woodham, Optical Engineering 19 (1980) 139).</summary>
    public const int Fewest = 3;

    /// <summary>Most photographs.</summary>
    public const int Most = 60;

    /// <summary>Below this elevation a lamp grazes: l / l_z and the shadows grow without limit.</summary>
    private const double LeastElevation = 1;

    /// <summary>Noise in the light grows by the inverse of this into the normal: beyond 20 nothing is left of photographs with 1 % noise.</summary>
    private const double LeastSpread = 0.05;

    /// <summary>Checks lamps.</summary>
    /// <param name="lamps">Lamps, in the photographs' order.</param>
    /// <param name="names">The photographs' names, for problems.</param>
    /// <param name="relativeToBoard">Whether the photographs are divided by an even board's.</param>
    /// <exception cref="InputProblem">Fewer than three, more than sixty, below the horizon, or all in one plane.</exception>
    public LampSet(IReadOnlyList<Lamp> lamps, IReadOnlyList<string> names, bool relativeToBoard)
    {
        if (lamps.Count is < Fewest or > Most)
            throw new InputProblem("lamp-count", "lamps", FormattableString.Invariant($"{lamps.Count} photographs in raking light were given."), "Give 3 to 60 with the lamp in different places, better eight: two leave the slope open.");
        for (var i = 0; i < lamps.Count; i++)
            if (!(lamps[i].Elevation >= LeastElevation))
                throw new InputProblem("lamp-horizon", names[i], FormattableString.Invariant($"The lamp of {names[i]} stands {lamps[i].Elevation:0.#} degrees above the plane: it does not light the front."), "Correct its elevation: degrees above the painting's plane, 1 to 90.");
        Spread = SmallestSingularValue(lamps) / Math.Sqrt(lamps.Count);
        if (Spread < LeastSpread)
            throw new InputProblem("lamps-coplanar", "lamps", "All lamps stand in one plane with the painting's middle: the slope across that plane cannot be told.", "Add a photograph with the lamp aside of the others' line, best a quarter turn round the painting.");
        (Lamps, RelativeToBoard) = (lamps, relativeToBoard);
    }

    /// <summary>Near lamps: direction and, without boards, distance differ from place to place.</summary>
    /// <param name="positions">Each lamp in mm from the upper left corner of the painted face: right, down, in front.</param>
    /// <param name="names">The photographs' names, for problems.</param>
    /// <param name="relativeToBoard">Whether the photographs are divided by an even board's.</param>
    /// <param name="mmPerPixel">Side of a pixel.</param>
    /// <param name="middle">The middle of the painted face, mm.</param>
    /// <exception cref="InputProblem">As for lamps far away, by their directions from the middle.</exception>
    public static LampSet Near(IReadOnlyList<(double X, double Y, double Z)> positions, IReadOnlyList<string> names, bool relativeToBoard, double mmPerPixel, (double X, double Y) middle)
    {
        var lamps = positions.Select(p => Lamp.Towards(p.X - middle.X, p.Y - middle.Y, p.Z)).ToList();
        return new LampSet(lamps, names, relativeToBoard)
        {
            _positions = [.. positions.Select(p => (p.X / mmPerPixel, p.Y / mmPerPixel, p.Z / mmPerPixel, Square(p.X - middle.X, p.Y - middle.Y, p.Z) / (mmPerPixel * mmPerPixel)))],
        };
    }

    private (double X, double Y, double Z, double SquareToMiddle)[]? _positions;

    /// <summary>Whether rows differ from place to place.</summary>
    internal bool IsNear => _positions is not null;

    /// <summary>The lamps.</summary>
    public IReadOnlyList<Lamp> Lamps { get; }

    /// <summary>Whether light is relative to a flat place's.</summary>
    public bool RelativeToBoard { get; }

    /// <summary>The row whose product with albedo times normal is the light of a photograph at a pixel's middle.</summary>
    internal (double X, double Y, double Z) Row(int lamp, int x, int y)
    {
        var (l, fall) = (Lamps[lamp], 1.0);
        if (_positions is not null)
        {
            var p = _positions[lamp];
            l = Lamp.Towards(p.X - x - 0.5, p.Y - y - 0.5, p.Z);
            fall = p.SquareToMiddle / Square(p.X - x - 0.5, p.Y - y - 0.5, p.Z);
        }
        return RelativeToBoard ? (l.X / l.Z, l.Y / l.Z, 1) : (fall * l.X, fall * l.Y, fall * l.Z);
    }

    /// <summary>Smallest singular value of the directions over the square root of their number: 0 for coplanar lamps, 0.58 for the best.</summary>
    public double Spread { get; }

    private static double Square(double x, double y, double z) => x * x + y * y + z * z;

    private static double SmallestSingularValue(IReadOnlyList<Lamp> lamps) =>
        Matrix<double>.Build.DenseOfRows(lamps.Select(l => new[] { l.X, l.Y, l.Z })).Svd(false).S.Minimum();
}
