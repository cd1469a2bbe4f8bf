using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>A place that two parts show, or a part and the reference.</summary>
/// <param name="From">Index of the part whose pixel is <see cref="FromPixel"/>; -1 for the reference, whose pixel is the target itself.</param>
/// <param name="FromPixel">Its pixel there.</param>
/// <param name="To">Index of the other part.</param>
/// <param name="ToPixel">Its pixel there.</param>
/// <param name="Precision">How much it says.</param>
internal readonly record struct Tie(int From, Point2 FromPixel, int To, Point2 ToPixel, double Precision);

/// <summary>
/// Moves all parts at once so that they agree best with each other and with the reference: Gauss-Newton on the homographies of all parts over all ties
/// (bundle adjustment; Triggs, McLauchlan, Hartley and Fitzgibbon, Vision Algorithms 1999, LNCS 1883, 298), reweighted by Cauchy's loss.
/// </summary>
internal sealed class JointAdjustment(IReadOnlyList<MosaicPart> parts, IReadOnlyList<Tie> ties, bool firstStays)
{
    private const int Rounds = 15;
    private const int Numbers = 8;

    /// <summary>Films lie flat, and a part without ties at its far end would tilt out of the plane: perspective is held at none as strongly as all its ties pull.</summary>
    private const double Hold = 1;

    private readonly (Point2 Middle, double Size)[] _frames = [.. parts.Select(p => (new Point2(p.Image.File.Width / 2.0, p.Image.File.Height / 2.0), Math.Max(p.Image.File.Width, p.Image.File.Height) / 2.0))];

    /// <summary>The adjusted parts, and what is left of each tie, target units.</summary>
    public (IReadOnlyList<MosaicPart> Parts, IReadOnlyList<double> Residuals) Run()
    {
        var h = parts.Select((p, i) => Coefficients(p.Map, i)).ToArray();
        var start = h.Select(x => (double[])x.Clone()).ToArray();
        for (var round = 0; round < Rounds; round++)
        {
            double[] lengths = [.. ties.Select(t => MapFit.Length(Residual(h, t)))];
            var scale = Math.Max(Robust.Median(lengths) / 1.1774, 1e-6);
            Step(h, start, [.. ties.Select((t, i) => t.Precision / (1 + lengths[i] * lengths[i] / (4 * scale * scale)))]);
        }
        return ([.. parts.Select((p, i) => p with { Map = MapOf(h[i], i) })], [.. ties.Select(t => MapFit.Length(Residual(h, t)))]);
    }

    private void Step(double[][] h, double[][] start, double[] weights)
    {
        var n = Numbers * parts.Count;
        var (normal, gradient) = (Matrix<double>.Build.Dense(n, n), Vector<double>.Build.Dense(n));
        Span<(int At, double X, double Y)> row = stackalloc (int, double, double)[2 * Numbers];
        for (var k = 0; k < ties.Count; k++)
        {
            var r = Residual(h, ties[k]);
            var count = Derivatives(h, ties[k], row);
            foreach (var (a, ax, ay) in row[..count])
            {
                gradient[a] += weights[k] * (ax * r.X + ay * r.Y);
                foreach (var (b, bx, by) in row[..count]) normal[a, b] += weights[k] * (ax * bx + ay * by);
            }
        }
        var total = normal.Diagonal().Sum() / n;
        for (var a = 0; a < n; a++)
        {
            var isPerspective = a % Numbers >= 6;
            var hold = firstStays && a < Numbers ? 1e9 * total : isPerspective ? Hold * normal[a, a] + 1e-9 * total : 1e-9 * total;
            normal[a, a] += hold;
            gradient[a] += hold * (h[a / Numbers][a % Numbers] - start[a / Numbers][a % Numbers]);
        }
        var step = normal.Solve(-gradient);
        for (var a = 0; a < n; a++) h[a / Numbers][a % Numbers] += step[a];
    }

    private Point2 Residual(double[][] h, Tie t)
    {
        var to = Apply(h, t.To, t.ToPixel);
        var from = t.From < 0 ? t.FromPixel : Apply(h, t.From, t.FromPixel);
        return new Point2(to.X - from.X, to.Y - from.Y);
    }

    private int Derivatives(double[][] h, Tie t, Span<(int, double, double)> row)
    {
        Fill(h, t.To, t.ToPixel, 1, row);
        if (t.From < 0) return Numbers;
        Fill(h, t.From, t.FromPixel, -1, row[Numbers..]);
        return 2 * Numbers;
    }

    private void Fill(double[][] h, int part, Point2 pixel, int sign, Span<(int At, double X, double Y)> row)
    {
        var (x, y) = Own(part, pixel);
        var at = Apply(h, part, pixel);
        var w = sign / (h[part][6] * x + h[part][7] * y + 1);
        var first = Numbers * part;
        (row[0], row[1], row[2]) = ((first, x * w, 0), (first + 1, y * w, 0), (first + 2, w, 0));
        (row[3], row[4], row[5]) = ((first + 3, 0, x * w), (first + 4, 0, y * w), (first + 5, 0, w));
        (row[6], row[7]) = ((first + 6, -x * at.X * w, -x * at.Y * w), (first + 7, -y * at.X * w, -y * at.Y * w));
    }

    private Point2 Apply(double[][] h, int part, Point2 pixel)
    {
        var (x, y) = Own(part, pixel);
        var c = h[part];
        var w = c[6] * x + c[7] * y + 1;
        return new Point2((c[0] * x + c[1] * y + c[2]) / w, (c[3] * x + c[4] * y + c[5]) / w);
    }

    private (double X, double Y) Own(int part, Point2 pixel) => ((pixel.X - _frames[part].Middle.X) / _frames[part].Size, (pixel.Y - _frames[part].Middle.Y) / _frames[part].Size);

    private Homography ToPixels(int part) => new([_frames[part].Size, 0, _frames[part].Middle.X, 0, _frames[part].Size, _frames[part].Middle.Y, 0, 0, 1]);

    private double[] Coefficients(HomographyMap map, int part) => [.. new Homography(map.PixelToPlane).After(ToPixels(part)).Coefficients.Take(Numbers)];

    private HomographyMap MapOf(double[] h, int part) => new(new Homography([.. h, 1]).After(ToPixels(part).Inverse()).Coefficients);
}
