using MathNet.Numerics.LinearAlgebra;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>
/// Directions of lamps of which only the common elevation is known: the photographs' three strongest components span what lamps and surface make (Hayakawa, Journal of the Optical Society of America A 11 (1994)
/// 3079); that all lamps stand on one circle makes of the span the circle itself; and of the turns and mirrorings that are left, the one is taken by which slopes are those of a surface
/// (integrability: Belhumeur, Kriegman and Yuille, International Journal of Computer Vision 35 (1999) 33; all from memory).
/// </summary>
/// <remarks>A surface lit from one side looks like its cast lit from the other: hills and hollows stay exchangeable. The height's scale goes with the stated elevation (the bas-relief ambiguity).</remarks>
internal static class UnknownLamps
{
    /// <summary>A conic needs five points.</summary>
    public const int Fewest = 5;

    /// <summary>Share of the strongest pixel below which a pixel does not count: it is in shadow.</summary>
    private const float Shadow = 0.1f;

    /// <summary>Estimates the lamps.</summary>
    /// <param name="patches">For some windows the light of each photograph.</param>
    /// <param name="elevation">The lamps' common elevation, degrees.</param>
    /// <param name="relativeToBoard">Whether light is relative to an even board's.</param>
    /// <exception cref="InputProblem">"lamps-not-estimated".</exception>
    public static IReadOnlyList<Lamp> Estimate(IReadOnlyList<IReadOnlyList<Plane>> patches, double elevation, bool relativeToBoard)
    {
        var count = patches[0].Count;
        if (count < Fewest) throw Problem("fewer than five photographs do not tell a circle");
        var spanned = Span(patches, count);
        var ones = Vector<double>.Build.Dense(count, 1);
        var up = spanned.QR(MathNet.Numerics.LinearAlgebra.Factorization.QRMethod.Thin).Solve(ones);
        var places = Circle(spanned, up) ?? throw Problem("the photographs do not lie on a circle, as lamps of one elevation do");
        List<Lamp> Lamps(double turn, int hand) => [.. places.Select(p => Lamp.FromAngles(180 / Math.PI * (turn + hand * Math.Atan2(p.X, -p.Y)), elevation))];
        var straight = Lamps(0, 1);
        var set = new LampSet(straight, [.. straight.Select((_, k) => $"{k}")], relativeToBoard);
        var (right, left) = (Turn(patches, set, 1), Turn(patches, set, -1));
        return right.Curl <= left.Curl ? Lamps(right.Angle, 1) : Lamps(left.Angle, -1);
    }

    /// <summary>The three strongest components over the photographs.</summary>
    private static Matrix<double> Span(IReadOnlyList<IReadOnlyList<Plane>> patches, int count)
    {
        var moments = new double[count, count];
        var values = new double[count];
        foreach (var patch in patches)
            for (var i = 0; i < patch[0].Data.Length; i++)
            {
                for (var k = 0; k < count; k++) values[k] = patch[k].Data[i];
                if (!(values.Min() > Shadow * values.Max())) continue;
                for (var k = 0; k < count; k++)
                    for (var j = 0; j < count; j++) moments[k, j] += values[k] * values[j];
            }
        var parts = Matrix<double>.Build.DenseOfArray(moments).Evd(Symmetricity.Symmetric);
        if (!(parts.EigenValues[count - 3].Real > 0)) throw Problem("they show no relief in common");
        return parts.EigenVectors.SubMatrix(0, count, count - 3, 3);
    }

    /// <summary>Places on the unit circle: an ellipse through the photographs' places beside the direction that all share, made round.</summary>
    private static IReadOnlyList<(double X, double Y)>? Circle(Matrix<double> spanned, Vector<double> up)
    {
        var beside = up.ToColumnMatrix().QR(MathNet.Numerics.LinearAlgebra.Factorization.QRMethod.Full).Q.SubMatrix(0, 3, 1, 2);
        var flat = spanned * beside;
        var size = flat.FrobeniusNorm() / Math.Sqrt(flat.RowCount);
        if (!(size > 0)) return null;
        flat /= size;
        var design = Matrix<double>.Build.DenseOfRows(flat.EnumerateRows().Select(t => new[] { t[0] * t[0], t[0] * t[1], t[1] * t[1], t[0], t[1] }));
        var conic = design.PseudoInverse() * Vector<double>.Build.Dense(flat.RowCount, 1);
        var form = Matrix<double>.Build.DenseOfArray(new[,] { { conic[0], conic[1] / 2 }, { conic[1] / 2, conic[2] } });
        var centre = form.PseudoInverse() * Vector<double>.Build.Dense([conic[3], conic[4]]) * -0.5;
        form /= 1 + centre.DotProduct(form * centre);
        var axes = form.Evd(Symmetricity.Symmetric);
        if (!axes.EigenValues.All(e => e.Real > 0)) return null;
        var round = Matrix<double>.Build.DenseOfDiagonalVector(axes.EigenValues.Map(e => Math.Sqrt(e.Real))) * axes.EigenVectors.Transpose();
        return [.. flat.EnumerateRows().Select(t => round * (t - centre)).Select(p => (p[0], p[1]))];
    }

    /// <summary>The turn, radians clockwise, that leaves the slopes least curl, and how much of it.</summary>
    private static (double Angle, double Curl) Turn(IReadOnlyList<IReadOnlyList<Plane>> patches, LampSet lamps, int hand)
    {
        var (aa, ab, bb) = (0.0, 0.0, 0.0);
        foreach (var (right, down) in patches.Select(p => PhotometricStereo.Solve(p, lamps).Slopes()))
            for (var y = 1; y < right.Height - 1; y++)
                for (var x = 1; x < right.Width - 1; x++)
                {
                    // Mirrored lamps (azimuth to its negative) mirror the slope to the right.
                    var (px, py) = (hand * (right[x + 1, y] - right[x - 1, y]), hand * (right[x, y + 1] - right[x, y - 1]));
                    var (qx, qy) = (down[x + 1, y] - down[x - 1, y], down[x, y + 1] - down[x, y - 1]);
                    var (a, b) = ((double)(py - qx), (double)(qy + px));
                    if (double.IsFinite(a + b)) (aa, ab, bb) = (aa + a * a, ab + a * b, bb + b * b);
                }
        // Turned by an angle, curl is cos a - sin b: the least of its sum of squares is the smaller eigenvalue.
        var angle = 0.5 * Math.Atan2(2 * ab, bb - aa);
        var (sin, cos) = Math.SinCos(angle);
        return (angle, cos * cos * aa - 2 * sin * cos * ab + sin * sin * bb);
    }

    private static InputProblem Problem(string why) => new("lamps-not-estimated", "lamps", $"Where the lamps stood cannot be told from the photographs: {why}.", "State it in the files' names (az315_el15), in photographs.csv, or with the parameter lamps.");
}
