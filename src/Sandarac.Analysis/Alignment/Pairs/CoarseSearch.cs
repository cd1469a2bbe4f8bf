using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Warping;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>A place where the moving photograph may lie.</summary>
/// <param name="Map">Similarity, possibly mirrored.</param>
/// <param name="Unit">Size of the search's pixel, target units: it is good to about one.</param>
/// <param name="Strength">Grows with how well and over how much the structures agree.</param>
internal sealed record Placement(HomographyMap Map, double Unit, double Strength);

/// <summary>What a search goes through.</summary>
/// <param name="Scales">Target units per moving pixel.</param>
/// <param name="Turns">Radians.</param>
/// <param name="Mirrored">Whether mirrored, not mirrored, or both are tried.</param>
internal sealed record SearchSpace(IReadOnlyList<double> Scales, IReadOnlyList<double> Turns, IReadOnlyList<bool> Mirrored);

/// <summary>
/// Looks for the moving photograph in the reference at every size, turn, hand and place: the structure fields of both, brought down to some hundred pixels,
/// are correlated over all shifts by Fourier transform, each overlap normalised by its own energies (D. Padfield, IEEE Trans. Image Processing 21 (2012) 2706).
/// </summary>
internal sealed class CoarseSearch(PairImage reference, PlaneMap referenceMap, Box area, PairImage moving, int longSide, double leastOverlap)
{
    private const int PeaksPerTurn = 2;

    private static readonly GaussianTaps Edges = GaussianTaps.Of(1);
    private static readonly GaussianTaps Around = GaussianTaps.Of(6);

    private readonly double _native = PlaneGrid.MeanScale(referenceMap, area);

    /// <summary>The likeliest places, strongest first; places close to a stronger one are left out.</summary>
    public IReadOnlyList<Placement> Find(SearchSpace space, int most, ParallelOptions options)
    {
        var found = new List<Placement>();
        foreach (var scale in space.Scales) found.AddRange(AtScale(scale, space, options));
        var kept = new List<Placement>();
        foreach (var placement in found.OrderByDescending(p => p.Strength))
        {
            if (kept.Count == most) break;
            if (!kept.Any(k => AreClose(k, placement))) kept.Add(placement);
        }
        return kept;
    }

    private IEnumerable<Placement> AtScale(double scale, SearchSpace space, ParallelOptions options)
    {
        var (w, h) = (moving.File.Width * scale, moving.File.Height * scale);
        var unit = Math.Max(Math.Min(Math.Max(area.Width, area.Height), Math.Max(w, h)) / longSide, Math.Max(_native, scale));
        var still = Field(reference, referenceMap, area, unit);
        var turned = Field(moving, new HomographyMap([scale, 0, 0, 0, scale, 0, 0, 0, 1]), new Box(0, 0, w, h), unit);
        var side = (int)Math.Ceiling(Math.Sqrt((double)turned.Width * turned.Width + (double)turned.Height * turned.Height)) + 2;
        var search = new OverlapCorrelation(still, turned, side);
        (double Turn, bool Mirrored)[] cases = [.. space.Mirrored.SelectMany(m => space.Turns.Select(t => (t, m)))];
        var results = new IReadOnlyList<Placement>[cases.Length];
        Parallel.For(0, cases.Length, options, i =>
        {
            var peaks = search.Peaks(Turn(turned, side, cases[i].Turn, cases[i].Mirrored), leastOverlap, PeaksPerTurn);
            results[i] = [.. peaks.Select(p => new Placement(MapOf(scale, cases[i], unit, side, p.X, p.Y), unit, p.Strength))];
        });
        return results.SelectMany(r => r);
    }

    private static StructureField Field(PairImage image, PlaneMap map, Box area, double unit)
    {
        var margin = StructureField.Margin(Edges);
        var grid = PlaneGrid.Covering(area, unit);
        var wide = new PlaneGrid(new Box(area.Left - margin * unit, area.Top - margin * unit, (grid.Width + 2 * margin) * unit, (grid.Height + 2 * margin) * unit), unit);
        return StructureField.Of(PlaneResampler.RoughWindow(image.File, map, wide, 0, 0, grid.Width + 2 * margin, grid.Height + 2 * margin)[..image.Colours], Edges, StructureKind.Directions, Around);
    }

    /// <summary>The field turned about its middle into a square, its directions turned with it.</summary>
    private static StructureField Turn(StructureField field, int side, double turn, bool mirrored)
    {
        var (cos, sin) = (new Plane(side, side), new Plane(side, side));
        var (c, s) = (Math.Cos(turn), Math.Sin(turn));
        var (c2, s2) = ((float)Math.Cos(2 * turn), (float)Math.Sin(2 * turn));
        var hand = mirrored ? -1 : 1;
        for (var y = 0; y < side; y++)
            for (var x = 0; x < side; x++)
            {
                var (qx, qy) = (x + 0.5 - side / 2.0, y + 0.5 - side / 2.0);
                var (px, py) = (hand * (c * qx + s * qy) + field.Width / 2.0 - 0.5, c * qy - s * qx + field.Height / 2.0 - 0.5);
                if (px < 0 || py < 0 || px > field.Width - 1 || py > field.Height - 1) continue;
                var (a, b) = (Bilinear(field.Cos, px, py), hand * Bilinear(field.Sin, px, py));
                (cos[x, y], sin[x, y]) = (c2 * a - s2 * b, s2 * a + c2 * b);
            }
        return StructureField.FromParts(cos, sin);
    }

    private static float Bilinear(Plane p, double x, double y)
    {
        var (i, j) = (Math.Min((int)x, p.Width - 2), Math.Min((int)y, p.Height - 2));
        if (i < 0 || j < 0) return p[Math.Max(0, i), Math.Max(0, j)];
        var (u, v) = ((float)(x - i), (float)(y - j));
        return (1 - v) * ((1 - u) * p[i, j] + u * p[i + 1, j]) + v * ((1 - u) * p[i, j + 1] + u * p[i + 1, j + 1]);
    }

    /// <summary>The similarity that puts the photograph's middle where the turned square's middle was found.</summary>
    private HomographyMap MapOf(double scale, (double Turn, bool Mirrored) turned, double unit, int side, int shiftX, int shiftY)
    {
        var (c, s) = (Math.Cos(turned.Turn) * scale, Math.Sin(turned.Turn) * scale);
        var hand = turned.Mirrored ? -1 : 1;
        var (mx, my) = (area.Left + (shiftX + side / 2.0) * unit, area.Top + (shiftY + side / 2.0) * unit);
        // Moving pixel, from the middle, mirrored first and then turned.
        var (a, b, d, e) = (hand * c, -s, hand * s, c);
        var (w, h) = (moving.File.Width / 2.0, moving.File.Height / 2.0);
        return new HomographyMap([a, b, mx - a * w - b * h, d, e, my - d * w - e * h, 0, 0, 1]);
    }

    /// <summary>Close when no corner of the photograph lies farther off than a few pixels of the search.</summary>
    private bool AreClose(Placement a, Placement b)
    {
        Point2[] corners = [new(0, 0), new(moving.File.Width, 0), new(moving.File.Width, moving.File.Height), new(0, moving.File.Height)];
        return corners.Max(c => a.Map.ToPlane(c).DistanceTo(b.Map.ToPlane(c))) < 8 * Math.Max(a.Unit, b.Unit);
    }
}
