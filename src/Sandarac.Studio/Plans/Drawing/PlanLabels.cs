using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>A label that wants a place.</summary>
/// <param name="Text">What it says.</param>
/// <param name="Anchor">The place that it names, mm on the sheet.</param>
/// <param name="Room">How far the zone's border is from there.</param>
/// <param name="MayLead">Whether it may stand outside the zone with a line to it; otherwise it has room inside or is left out.</param>
internal sealed record LabelAsk(string Text, Coordinate Anchor, double Room, bool MayLead);

/// <summary>A label in its place.</summary>
/// <param name="Ask">What was asked.</param>
/// <param name="Box">Where it stands.</param>
/// <param name="LeaderEnd">Where the line from the place meets the box; null when the label stands on the place.</param>
internal sealed record PlacedLabel(LabelAsk Ask, Envelope Box, Coordinate? LeaderEnd);

/// <summary>Places labels so that none covers another, nor the place that another names, and no leader crosses a label: the roomiest first, each at the first place of a growing star that is free, away from the crowd. A leader crosses another only where there is no other place.</summary>
internal sealed class PlanLabels
{
    public const double Size = 2.5, Height = 3.2;

    /// <summary>Distances of the star's rings, mm: farther, a reader loses the line.</summary>
    private static readonly double[] Rings = [3.5, 5.5, 8, 11, 15, 20, 26, 33, 40];

    private const int Directions = 24;

    /// <summary>Places nearer than this are a label's crowd, mm.</summary>
    private const double CrowdMm = 25;

    private readonly Envelope _bounds;
    private readonly Near<PlacedLabel> _placed;
    private readonly Near<Coordinate> _anchors;

    private PlanLabels(Envelope bounds) => (_bounds, _placed, _anchors) = (bounds, new Near<PlacedLabel>(bounds), new Near<Coordinate>(bounds));

    /// <summary>Those that found a place.</summary>
    /// <param name="asks">In the order in which they may choose.</param>
    /// <param name="bounds">Where they may stand.</param>
    public static IReadOnlyList<PlacedLabel> Place(IReadOnlyList<LabelAsk> asks, Envelope bounds)
    {
        var labels = new PlanLabels(bounds);
        foreach (var ask in asks.Where(a => a.MayLead)) labels._anchors.Add(new Envelope(ask.Anchor), ask.Anchor);
        return [.. asks.Select(labels.Place).OfType<PlacedLabel>()];
    }

    private PlacedLabel? Place(LabelAsk ask)
    {
        var (w, h) = ((Ink.BreadthOf(ask.Text, Size) + 1.2) / 2, Height / 2);
        var inside = new PlacedLabel(ask, Box(ask.Anchor.X, ask.Anchor.Y, w, h), null);
        if (Math.Sqrt(w * w + h * h) <= ask.Room && IsFree(inside, mayCross: false)) return Take(inside);
        if (!ask.MayLead) return null;
        return Led(ask, w, h, mayCross: false) ?? Led(ask, w, h, mayCross: true);
    }

    private PlacedLabel? Led(LabelAsk ask, double w, double h, bool mayCross)
    {
        var away = Away(ask.Anchor);
        foreach (var ring in Rings)
            for (var k = 0; k < Directions; k++)
            {
                // First straight away from the crowd, then a little to one side, a little to the other.
                var angle = away + Math.PI * (k % 2 == 0 ? k : -k - 1) / Directions;
                var box = Box(ask.Anchor.X + (ring + w) * Math.Cos(angle), ask.Anchor.Y + (ring + h) * Math.Sin(angle), w, h);
                var led = new PlacedLabel(ask, box, new Coordinate(Math.Clamp(ask.Anchor.X, box.MinX, box.MaxX), Math.Clamp(ask.Anchor.Y, box.MinY, box.MaxY)));
                if (IsFree(led, mayCross)) return Take(led);
            }
        return null;
    }

    private double Away(Coordinate anchor)
    {
        var crowd = _anchors.About(new Envelope(anchor.X - CrowdMm, anchor.X + CrowdMm, anchor.Y - CrowdMm, anchor.Y + CrowdMm)).ToList();
        return crowd.Count <= 1 ? -Math.PI / 4 : Math.Atan2(anchor.Y - crowd.Average(c => c.Y), anchor.X - crowd.Average(c => c.X));
    }

    private bool IsFree(PlacedLabel label, bool mayCross)
    {
        if (!_bounds.Contains(label.Box) || _anchors.About(label.Box).Any(a => a != label.Ask.Anchor && label.Box.Contains(a))) return false;
        return _placed.About(Reach(label)).All(other => !other.Box.Intersects(label.Box) && !Crosses(label, other.Box) && !Crosses(other, label.Box) && (mayCross || !Cross(label, other)));
    }

    private static bool Crosses(PlacedLabel leading, Envelope box) => leading.LeaderEnd is { } end && new RectangleLineIntersector(box).Intersects(leading.Ask.Anchor, end);

    private static bool Cross(PlacedLabel a, PlacedLabel b)
    {
        if (a.LeaderEnd is not { } end || b.LeaderEnd is not { } other) return false;
        // On which side of one line the ends of the other lie.
        int Side(Coordinate from, Coordinate to, Coordinate p) => (int)Orientation.Index(from, to, p);
        return Side(a.Ask.Anchor, end, b.Ask.Anchor) * Side(a.Ask.Anchor, end, other) <= 0 && Side(b.Ask.Anchor, other, a.Ask.Anchor) * Side(b.Ask.Anchor, other, end) <= 0;
    }

    private PlacedLabel Take(PlacedLabel label)
    {
        _placed.Add(Reach(label), label);
        return label;
    }

    private static Envelope Reach(PlacedLabel label)
    {
        var reach = label.Box.Copy();
        if (label.LeaderEnd is not null) reach.ExpandToInclude(label.Ask.Anchor);
        return reach;
    }

    private static Envelope Box(double x, double y, double w, double h) => new(x - w, x + w, y - h, y + h);

    /// <summary>Things by the squares of the sheet that they touch.</summary>
    private sealed class Near<T>(Envelope bounds) where T : class
    {
        private const double SquareMm = 8;

        private readonly Dictionary<(int, int), List<T>> _squares = [];

        public void Add(Envelope box, T thing)
        {
            foreach (var square in Squares(box))
            {
                if (!_squares.TryGetValue(square, out var there)) _squares[square] = there = [];
                there.Add(thing);
            }
        }

        /// <summary>What may touch a box; some of it more than once.</summary>
        public IEnumerable<T> About(Envelope box) => Squares(box).SelectMany(s => _squares.GetValueOrDefault(s) ?? []);

        private IEnumerable<(int, int)> Squares(Envelope box)
        {
            for (var x = Index(box.MinX - bounds.MinX); x <= Index(box.MaxX - bounds.MinX); x++)
                for (var y = Index(box.MinY - bounds.MinY); y <= Index(box.MaxY - bounds.MinY); y++) yield return (x, y);
        }

        private static int Index(double mm) => (int)Math.Floor(mm / SquareMm);
    }
}
