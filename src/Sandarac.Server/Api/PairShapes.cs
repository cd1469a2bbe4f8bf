using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Server.Api;

/// <summary>A pair: its place on the plane (mm, y down), its pixel in the photograph, and whether it counts.</summary>
internal sealed record PairShape(IReadOnlyList<double>? Place, IReadOnlyList<double>? Pixel, bool Used = true)
{
    public static PairShape Of(PointPair pair) => new([pair.Place.X, pair.Place.Y], [pair.Pixel.X, pair.Pixel.Y], pair.Used);

    public PointPair ToPair() => new(Points.Read("place", Place), Points.Read("pixel", Pixel), Used);
}

/// <summary>A pair to be moved to the best match nearby, and the pairs so far.</summary>
internal sealed record SnapAsk(Guid Reference, IReadOnlyList<PairShape?>? Pairs, PairShape? Pair);

/// <summary>Where the pair's pixel lies best and how well it agrees, -1 to 1; or why it was left where it is.</summary>
internal sealed record SnapShape(IReadOnlyList<double>? Pixel, double? Score, string? Reason);

/// <summary>Pairs and a model: "auto", "similarity", "affine", "homography", "homography-with-lens", "smooth".</summary>
internal sealed record FitAsk(IReadOnlyList<PairShape?>? Pairs, string? Model);

/// <summary>What a fit leaves of one pair: right and down in mm, its length in mm and in pixels of the photograph, when it is left out, in mm, and the others' root mean square then.</summary>
internal sealed record PairResidualShape(IReadOnlyList<double> Residual, double Mm, double Px, double? LeftOutMm, double? OthersRmsMm);

/// <summary>Half lie within the median, 95 of 100 within p95, all within max; mm.</summary>
internal sealed record SpreadShape(double Median, double P95, double Max);

/// <summary>A fit through pairs. The spreads are of the pairs that count; left out: each by a fit without it, null where too few are left.</summary>
internal sealed record FitShape(string Model, double MmPerPixel, IReadOnlyList<PairResidualShape> Pairs, SpreadShape Residual, SpreadShape? LeftOut);

/// <summary>A place (mm) or a pixel whose counterpart is wanted, and the pairs so far.</summary>
internal sealed record PredictAsk(IReadOnlyList<PairShape?>? Pairs, IReadOnlyList<double>? Place, IReadOnlyList<double>? Pixel);

/// <summary>A place and its pixel, and the size of a pixel there; null where it lies nowhere.</summary>
internal sealed record PredictShape(IReadOnlyList<double>? Place, IReadOnlyList<double>? Pixel, double? MmPerPixel);

/// <summary>Pairs by which a photograph shall be aligned to a reference.</summary>
internal sealed record AlignByPairsAsk(Guid Reference, string? Model, IReadOnlyList<PairShape?>? Pairs);

/// <summary>A reference to which a photograph shall be aligned by itself.</summary>
internal sealed record MatchAsk(Guid Reference, string? Model);

/// <summary>What an alignment leaves at one place: right and down, mm.</summary>
internal sealed record ResidualShape(IReadOnlyList<double> Place, IReadOnlyList<double> Residual);

/// <summary>Points and models as they come over the wire.</summary>
internal static class Points
{
    /// <summary>The model; null for the automatic choice or nothing.</summary>
    public static MapModel? ModelOf(string? name) => ModelNames.Parse(name ?? ModelNames.Automatic);

    public static Point2 Read(string name, IReadOnlyList<double>? value) => value is [var x, var y] && double.IsFinite(x) && double.IsFinite(y)
        ? new Point2(x, y)
        : throw new InputProblem("point", name, $"The {name} is not a point.", $"Give {name} as two numbers, x and y.");

    public static IReadOnlyList<PointPair> Read(IReadOnlyList<PairShape?>? pairs) => [.. (pairs ?? []).Select(Read)];

    public static PointPair Read(PairShape? pair) => pair?.ToPair() ?? throw new InputProblem("point", "pair", "A pair is missing.", "Give it as place and pixel.");

    /// <summary>A point for an answer; null where the map has none.</summary>
    public static IReadOnlyList<double>? Write(Point2 p) => double.IsFinite(p.X) && double.IsFinite(p.Y) ? [p.X, p.Y] : null;
}
