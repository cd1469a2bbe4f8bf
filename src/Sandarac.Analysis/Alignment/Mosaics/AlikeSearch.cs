using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Numbers;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Alignment.Mosaics;

/// <summary>
/// Where a part lies on the guide, once others have their place: films of one set are scanned alike and frames of one set taken alike, so that size and turn are
/// nearly known and the whole part can be correlated with the guide at once. That finds likeness too faint for any patch alone, but does not judge it.
/// </summary>
internal sealed class AlikeSearch(AlignmentTarget reference, ParallelOptions parallel)
{
    private const int LongSide = 640;

    /// <summary>By how many of the search's pixels what confirms a place may move it.</summary>
    private const double Near = 6;

    /// <summary>Standard error of a tie of precision 1, pixels of the part, and of a place found, pixels of the search: it steps by whole ones.</summary>
    private const double TieError = 0.3, FoundError = 0.5;

    private static readonly double[] Lattice = [0.1, 0.5, 0.9];

    /// <summary>Steps about the others' size, and degrees about their turn; then both finer about what was found.</summary>
    private static readonly (double[] Sizes, double[] Degrees)[] Rounds =
    [
        ([0.99, 0.995, 1, 1.005, 1.01], [-2, -1.6, -1.2, -0.8, -0.4, 0, 0.4, 0.8, 1.2, 1.6, 2]),
        ([0.9975, 0.99875, 1, 1.00125, 1.0025], [-0.2, -0.1, 0, 0.1, 0.2]),
    ];

    /// <summary>The place where the structures agree best; null when no place shows enough of both.</summary>
    public Placement? Find(PairImage image, IReadOnlyList<MosaicPart> others)
    {
        var search = new CoarseSearch(reference.Reference, reference.Map, reference.Area, image, LongSide, PairAligner.LeastOverlap);
        var (first, isMirrored) = Turn(others[0].Map, others[0].Image);
        var size = Robust.Median(others.Select(o => o.Unit));
        var turn = first + Robust.Median(others.Select(o => Math.IEEERemainder(Turn(o.Map, o.Image).Radians - first, 2 * Math.PI)));
        Placement? best = null;
        foreach (var (sizes, degrees) in Rounds)
        {
            if (search.Find(new SearchSpace([.. sizes.Select(f => f * size)], [.. degrees.Select(d => turn + d * Math.PI / 180)], [isMirrored]), 1, parallel) is not [var found, ..]) return null;
            (best, size, turn) = (found, found.Map.ScaleAt(image.Middle), Turn(found.Map, image).Radians);
        }
        return best;
    }

    /// <summary>Whether a map leaves a photograph's middle where it was found.</summary>
    public static bool Confirms(HomographyMap map, Placement found, PairImage image) => map.ToPlane(image.Middle).DistanceTo(found.Map.ToPlane(image.Middle)) < Near * found.Unit;

    /// <summary>Nine places of each part whose whole agreed with the guide: they hold it where patches say little.</summary>
    public static IEnumerable<Tie> Holding(IReadOnlyList<MosaicPart> parts) => parts.SelectMany((part, i) => part.Whole is { } whole ? Holding(part, i, whole) : []);

    private static IEnumerable<Tie> Holding(MosaicPart part, int index, Placement whole)
    {
        var precision = Math.Pow(TieError * part.Unit / (FoundError * whole.Unit), 2);
        return from y in Lattice from x in Lattice select new Point2(x * part.Image.File.Width, y * part.Image.File.Height) into p select new Tie(-1, whole.Map.ToPlane(p), index, p, precision);
    }

    /// <summary>How a photograph is turned, after being mirrored where it is.</summary>
    private static (double Radians, bool IsMirrored) Turn(HomographyMap map, PairImage image)
    {
        var m = image.Middle;
        var (o, right, down) = (map.ToPlane(m), map.ToPlane(new Point2(m.X + 1, m.Y)), map.ToPlane(new Point2(m.X, m.Y + 1)));
        var isMirrored = (right.X - o.X) * (down.Y - o.Y) < (right.Y - o.Y) * (down.X - o.X);
        var hand = isMirrored ? -1 : 1;
        return (Math.Atan2(hand * (right.Y - o.Y), hand * (right.X - o.X)), isMirrored);
    }
}
