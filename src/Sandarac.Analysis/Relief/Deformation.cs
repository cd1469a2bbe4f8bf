using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Numbers;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>Places where the surface stands out of, or lies below, its surroundings over some millimetres to centimetres: candidates for lifting and deformation.</summary>
internal sealed class Deformation
{
    /// <summary>A place counts when it differs by so many robust standard deviations of all places: chance alone gives fewer than one in a million.</summary>
    private const double Spreads = 5;

    /// <summary>Blisters are at most as large as a disc of this diameter, mm: common practice, no source.</summary>
    private const double BlisterMm = 20;

    /// <summary>Longer than this many times its breadth a place is called a draw or a ridge: common practice, no source.</summary>
    private const double Elongated = 3;

    /// <summary>A deformed paint layer keeps its texture; where slopes change from pixel to pixel this many times more than in the middle of the painting, paint itself is thick: common practice, no source.</summary>
    private const double ThickPaint = 2;

    private readonly Plane _relief;
    private readonly double _side;

    /// <summary>Looks for them.</summary>
    /// <param name="height">Height without form, um.</param>
    /// <param name="slopes">Rise to the right and down.</param>
    /// <param name="scale">Its scale.</param>
    /// <param name="shortest">Shorter waves are strokes and weave, mm.</param>
    /// <param name="longest">Longer waves are form, mm.</param>
    /// <param name="least">Least height, um.</param>
    /// <param name="size">Side of a square as large as the smallest place, mm.</param>
    /// <param name="parallel">Threads.</param>
    public Deformation(Plane height, (Plane Right, Plane Down) slopes, PixelScale scale, double shortest, double longest, double least, double size, ParallelOptions parallel)
    {
        // Four pixels across the shortest wave hold it.
        var factor = Math.Max(1, (int)(shortest / 4 / scale.MmPerPixel));
        var reduced = ReducedLight.Reduced(height, factor);
        _side = factor * scale.MmPerPixel;
        _relief = SurfaceFilter.LongWaves(reduced, Math.Max(1, shortest / _side), parallel);
        var long0 = SurfaceFilter.LongWaves(reduced, longest / _side, parallel);
        for (var i = 0; i < _relief.Data.Length; i++) _relief.Data[i] -= long0.Data[i];
        var limit = (float)Math.Max(least, Spreads * Robust.Sigma([.. _relief.Data.Where(float.IsFinite).Select(v => (double)v)]));
        Limit = limit;
        var fewest = Math.Max(1, (int)(size * size / (_side * _side)));
        var (raised, sunk) = (_relief.Select(v => -v), _relief);
        var texture = Texture(slopes, factor, parallel);
        var thick = ThickPaint * ThickPaint * Robust.Median(texture.Data.Where(float.IsFinite).Select(v => (double)v));
        bool IsPaint(DarkPart part) => Robust.Median(part.Pixels.Select(i => (double)texture.Data[i])) > thick;
        var (up, down) = (DarkParts.Of(raised, -limit, fewest).ToLookup(IsPaint), DarkParts.Of(sunk, -limit, fewest).ToLookup(IsPaint));
        ThickPlaces = up[true].Count() + down[true].Count();
        Candidates =
        [
            .. up[false].Select(p => Proposed(p, new PartFigures(raised, factor, scale), limit, true)),
            .. down[false].Select(p => Proposed(p, new PartFigures(sunk, factor, scale), limit, false)),
        ];
    }

    /// <summary>Least height that was used, um.</summary>
    public double Limit { get; }

    /// <summary>The places, raised ones first.</summary>
    public IReadOnlyList<Candidate> Candidates { get; }

    /// <summary>Places left out because their texture is that of thick paint.</summary>
    public int ThickPlaces { get; }

    /// <summary>Mean square of the slopes' second differences along themselves, in each reduced pixel: a smooth hill leaves next to nothing, marks of the brush do.</summary>
    private static Plane Texture((Plane Right, Plane Down) slopes, int factor, ParallelOptions parallel)
    {
        var (right, down, texture) = (slopes.Right, slopes.Down, new Plane(slopes.Right.Width, slopes.Right.Height));
        Parallel.For(0, texture.Height, parallel, y =>
        {
            var (above, below) = (Math.Max(0, y - 1), Math.Min(texture.Height - 1, y + 1));
            for (var x = 0; x < texture.Width; x++)
            {
                var across = right[Math.Max(0, x - 1), y] - 2 * right[x, y] + right[Math.Min(texture.Width - 1, x + 1), y];
                var along = down[x, above] - 2 * down[x, y] + down[x, below];
                texture[x, y] = across * across + along * along;
            }
        });
        return ReducedLight.Reduced(texture, factor);
    }

    private Candidate Proposed(DarkPart part, PartFigures figures, double limit, bool raised)
    {
        var (area, aspect, peak) = (figures.Area(part), Aspect(part), part.Pixels.Max(i => Math.Abs(_relief.Data[i])));
        var rim = -Robust.Median(figures.Rings(part, 4).Where(double.IsFinite).DefaultIfEmpty(0));
        var (kind, words) = (raised, aspect >= Elongated, area <= Math.PI / 4 * BlisterMm * BlisterMm, rim < -limit / 2) switch
        {
            (_, true, _, _) => ("draw", raised ? "long and narrow: consistent with a draw or ridge of the support, with a seam or join, and with a thick stroke" : "long and narrow: consistent with a draw or furrow of the support, and with a join"),
            (true, _, true, _) => ("blister", "small and round: consistent with a blister or lifting paint, and with a lump of thick paint"),
            (true, _, false, _) => ("bulge", "wide: consistent with a bulge of the support, and with a thickly painted passage"),
            (false, _, _, true) => ("cupping", "hollow with a raised rim: consistent with a cupped flake, and with a dent"),
            _ => ("hollow", "hollow without a raised rim: consistent with a dent, a sunken support and a thinly painted passage among thick ones"),
        };
        var reason = string.Create(CultureInfo.InvariantCulture, $"Its middle half lies {Math.Abs(figures.Depth(part)):0} um {(raised ? "above" : "below")} its surroundings, at most {peak:0} um, over {area:0} mm2 ± {figures.AreaUncertainty(part):0} mm2; {aspect:0.0} times as long as broad; {words}.");
        return new Candidate(figures.Outline(part), kind, figures.ShareBelow(part, -1.5 * limit), reason);
    }

    /// <summary>Length over breadth by second moments.</summary>
    private double Aspect(DarkPart part)
    {
        var (xs, ys) = (part.Pixels.Select(i => (double)(i % _relief.Width)).ToArray(), part.Pixels.Select(i => (double)(i / _relief.Width)).ToArray());
        var (mx, my) = (xs.Average(), ys.Average());
        // A twelfth is the pixel's own moment.
        var (xx, yy, xy) = (xs.Average(x => (x - mx) * (x - mx)) + 1.0 / 12, ys.Average(y => (y - my) * (y - my)) + 1.0 / 12, xs.Zip(ys, (x, y) => (x - mx) * (y - my)).Average());
        var (mean, apart) = ((xx + yy) / 2, Math.Sqrt((xx - yy) * (xx - yy) / 4 + xy * xy));
        return Math.Sqrt((mean + apart) / (mean - apart));
    }
}
