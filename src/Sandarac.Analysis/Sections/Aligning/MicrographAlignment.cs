using System.Globalization;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections.Aligning;

/// <summary>How a micrograph lies on the visible one.</summary>
/// <param name="Name">The file.</param>
/// <param name="Found">What held-out patches say.</param>
/// <param name="IsAsGiven">Whether it lies on the visible one's grid as it is.</param>
/// <param name="Shown">Share of the visible one that it shows.</param>
/// <param name="Size">Size of its pixel in those of the visible one.</param>
/// <param name="Degrees">Its turn, clockwise.</param>
/// <param name="Middle">Where its middle lies on the visible one, pixels.</param>
internal sealed record MicrographAlignment(string Name, PairAlignment Found, bool IsAsGiven, double Shown, double Size, double Degrees, Point2 Middle)
{
    /// <summary>Least share of the visible one that it must show.</summary>
    private const double LeastShown = 0.5;

    /// <summary>The figures, for each micrograph beside the visible one.</summary>
    public static IReadOnlyList<FigureOutput> Declared { get; } =
    [
        new("aligned-median", "Alignment, half of the patches within", "px", "Distance of held-out patches that agree from where the alignment to the visible micrograph has them, its pixels. The verdict is in the note."),
        new("aligned-p95", "Alignment, 95 of 100 patches within", "px", "As the median."),
        new("aligned-size", "Size of its pixel", "px", "In pixels of the visible micrograph; 1 where it lies on that grid as it is."),
        new("aligned-turn", "Turn", "degrees", "Against the visible micrograph, clockwise."),
        new("aligned-x", "Its middle, from the left", "px", "Where the middle of its frame lies, in pixels of the visible micrograph."),
        new("aligned-y", "Its middle, from the top", "px", "As aligned-x."),
        new("aligned-shown", "Share of the visible micrograph that it shows", "%", "Where it shows nothing it has no say."),
    ];

    /// <summary>Whether it is used: an alignment that is uncertain is, for on drawn sections all of them were right.</summary>
    public bool IsUsed => Found.Verdict != PairVerdict.NotAligned && Shown >= LeastShown;

    /// <summary>How <paramref name="found"/> places a micrograph of so many pixels on a grid of so many.</summary>
    public static MicrographAlignment Of(string name, PairAlignment found, bool isAsGiven, (int Width, int Height) size, (int Width, int Height) grid)
    {
        if (found.Map is not { } map || isAsGiven) return new MicrographAlignment(name, found, isAsGiven, found.Map is null ? 0 : 1, 1, 0, new Point2(size.Width / 2.0, size.Height / 2.0));
        var (middle, right) = (map.ToPlane(new Point2(size.Width / 2.0, size.Height / 2.0)), map.ToPlane(new Point2(size.Width / 2.0 + 1, size.Height / 2.0)));
        return new MicrographAlignment(name, found, false, ShareOf(map, size, grid), map.ScaleAt(new Point2(size.Width / 2.0, size.Height / 2.0)), Math.Atan2(right.Y - middle.Y, right.X - middle.X) * 180 / Math.PI, middle);
    }

    /// <summary>What is to be known of it.</summary>
    public Warning? Warning => Found.Verdict switch
    {
        PairVerdict.NotAligned => new Warning("micrograph-not-aligned", $"{Name} is left out: it could not be aligned to the visible micrograph. {Found.Reason}"),
        _ when !IsUsed => new Warning("micrograph-not-aligned", string.Create(CultureInfo.InvariantCulture, $"{Name} is left out: it shows {100 * Shown:0} % of the visible micrograph, of which {100 * LeastShown:0} % are asked for.")),
        PairVerdict.Uncertain => new Warning("micrograph-uncertain", $"{Name} is used, but its alignment to the visible micrograph is uncertain: see whether boundaries lie on it as on the visible one. {Found.Reason}"),
        _ => null,
    };

    /// <summary>Its figures.</summary>
    public IEnumerable<Figure> Figures()
    {
        if (Found.HeldOut is not { } held || Found.Verdict == PairVerdict.NotAligned) yield break;
        var verdict = $"{(Found.Verdict == PairVerdict.Aligned ? "aligned" : "uncertain")}{(IsAsGiven ? ", on the visible one's grid as it is" : "")}{(IsUsed ? "" : ", left out")}";
        yield return new Figure("aligned-median", held.Median, null, verdict, Name);
        yield return new Figure("aligned-p95", held.P95, null, verdict, Name);
        const string byPatches = "as sure as the patches";
        yield return new Figure("aligned-size", Size, null, byPatches, Name);
        yield return new Figure("aligned-turn", Degrees, null, byPatches, Name);
        yield return new Figure("aligned-x", Middle.X, null, byPatches, Name);
        yield return new Figure("aligned-y", Middle.Y, null, byPatches, Name);
        yield return new Figure("aligned-shown", 100 * Shown, null, byPatches, Name);
    }

    private static double ShareOf(PlaneMap map, (int Width, int Height) size, (int Width, int Height) grid)
    {
        const int steps = 64;
        bool Shows(int i)
        {
            var p = map.ToPixel(new Point2((i % steps + 0.5) / steps * grid.Width, (i / steps + 0.5) / steps * grid.Height));
            return p.X >= 0 && p.Y >= 0 && p.X <= size.Width && p.Y <= size.Height;
        }
        return Enumerable.Range(0, steps * steps).Count(Shows) / (double)(steps * steps);
    }
}
